// Package paper prints a page of HTML to PDF with the browser that is installed.
//
// The page is set for paper already; a browser is the one program that sets it on paper and on screen alike, with the fonts,
// hyphens and page breaks of its language. A library that writes PDF would need the same page laid out a second time. The
// package imports no contract and nothing of service.
package paper
