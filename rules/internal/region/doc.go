// Package region proves things about every input of a rule table, or finds an
// input that breaks them.
//
// It splits the space of facts in two, again and again, where the cut parts the
// boxes that still matter best, until each part is judged. A missing value is a
// point of its own on every axis. A search takes at most the steps it is given
// and has three results: proved, refuted by a point, not decided.
//
// It knows boxes and axes only; what a broken point means is its caller's.
package region
