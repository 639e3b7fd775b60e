// Package edit changes single rules in the text of a rule file. Everything else in the file keeps its place: comments, blank
// lines, the order of keys, the way other values are written.
//
// It works on texts. Whether a condition or an answer means anything is package rules' to say, when the file is loaded.
package edit
