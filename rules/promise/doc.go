// Package promise reads what a set of rules promises for every input, and proves
// it or refutes it with an input.
//
// A promise is a condition over facts and over what tables answer for them, a
// table's field after a dot: limit.step. A missing fact is a value like any other.
// Every table is asked with the same facts. A promise has one of three outcomes:
// kept, broken by an input, not decided; what is not decided is not kept.
//
// The package reads text that it is given. It never imports files, a clock or a log.
package promise
