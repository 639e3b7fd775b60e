// Package sheet is a printed sheet: headings, paragraphs, lists, tables and charts in order, written as HTML for screen and
// paper or as plain text. Both come from the same sheet, so neither can say what the other does not.
//
// The HTML stands alone: one file without scripts, fonts or images from elsewhere. It prints on A4 or Letter with no chart or
// row cut by a page's end, no heading left behind by its text, and loses nothing in grey. Every text from outside is escaped.
// The package knows nothing of paint and no language, and imports no contract, storage, network, os, clock or log.
package sheet
