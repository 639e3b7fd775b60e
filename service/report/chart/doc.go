// Package chart draws measured values as dots with their intervals on a common scale: in SVG for paper and screen, in letters
// for a terminal.
//
// The scale begins where the values do, never at zero for its own sake: a dot says where a value lies, and its line how surely.
// What a mark means is carried by its shape, so that nothing is lost in grey. The package knows no paint and no language: labels
// and numbers come in as text. It imports no contract, storage, network, os, clock or log; all functions may be called
// concurrently.
package chart
