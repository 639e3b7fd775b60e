// Package check finds what is wrong with a set of rules that loads: inputs that no
// rule answers, rules that disagree, rules that can never win, conditions that are
// never or always true, and results that no rule gives.
//
// A finding is certain and has an example, or says that it is only possible: a
// search has a budget of steps, and a clause that is no bound on single facts may
// stand in its way. What promises say is checked by package promise.
package check
