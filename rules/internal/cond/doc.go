// Package cond turns the text of a condition into boxes.
//
// The way is: expr parses the text; an allow-list and our own types check the
// tree and collect every mistake with its place; the checked tree is brought to
// negation normal form, where each comparison becomes a set of codes of one fact
// or, when it cannot, a clause: a yes-or-no column of its own that expr's virtual
// machine answers. The boxes are the disjunctive normal form of that.
//
// Evaluation is Kleene's strong three-valued logic throughout. A missing fact
// never reaches the virtual machine, and arithmetic that leaves the finite
// numbers (division by zero above all) is unknown, not false.
//
// The package knows nothing of files, tables or results.
package cond
