// Package index finds the boxes that hold at an input: one bitset of boxes for
// each stretch of each axis, ANDed together. The cost is nearly flat in the
// number of rules, and the same bitsets say which boxes only wait for a missing
// fact and which fail on exactly one.
//
// It knows boxes and clauses, and nothing of rules, results or files.
package index
