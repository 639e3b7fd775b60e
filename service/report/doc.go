// Package report makes the record that a shop hands to the owner of a vehicle: what was found, what was done and why, what it
// brought and took, what was left on purpose, and how to keep it.
//
// Everything in it comes from the events of the job; the report decides nothing. [Make] puts together what is on record, in the
// contract's words and in numbers as they were recorded; [Report.Sheet] says it in a language. Means and their intervals are
// reckoned by service/gloss from the readings on record. The package owns which of it stands where, and imports no contract,
// storage, network, os, clock or log.
package report
