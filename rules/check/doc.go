// Package check finds what is wrong with a set of rules that loads, or doubtful: inputs
// that no rule answers, rules that disagree, rules that can never win, conditions that
// are never or always true, rules that one could say, numbers that a fact cannot have,
// and results that no rule gives.
//
// A finding names all the inputs around its example for which it is so, and the
// smallest way out. It is certain, or says that it is only possible: a search has a
// budget of steps, and a clause that is no bound on single facts may stand in its way,
// which weakens what hangs on that clause and nothing else. What is not found is
// proved, and [Report] says so for each table.
//
// What promises say is checked by package promise. This package reads no files but the
// text of a loaded set, and has no clock; chance in it is seeded.
package check
