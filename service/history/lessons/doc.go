// Package lessons is what a shop has learned from its own record: how often a step was accepted, what it gained, what it took
// and how long it lasted, by step, softness of the paint, how bad the marks were and what kind they were.
//
// It reads events, of which only what holds counts: corrections are applied, and a verdict that rests on something corrected
// since is left out. [Gather] makes outcomes of the events of one job, [Records] keeps them by job so that one more event costs
// one job and not the whole record, and [Learn] pools them: a class with many trials speaks for itself, one with few is drawn
// towards what the shop does on the whole, and a shop with few towards what is stated as usual (package learned).
//
// What is usual is not in this package: it comes from a rule table, through a function. The package is pure: it imports no
// contract, SQL, network, os, clock or log, and knows no rules.
package lessons
