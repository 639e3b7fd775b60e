// Package hindsight holds rules against what is on record.
//
// [Replay] asks an edited set what every recorded decision was asked, with the facts as they were seen, and tells what would be
// answered otherwise, by class of panel; and where trials came to an end, which of the two answers the outcome speaks for.
// [Hints] tries every bound of the rules in force a step to either side and keeps those that the shop's own outcomes speak
// against. [Explain] puts one recorded decision into words by the set that made it.
//
// What only another course of events could tell is never guessed: it is counted as open, and [Limits] says what else the
// comparison cannot see. The package changes no rule. It is pure: it imports no contract, SQL, network, os, clock or log.
package hindsight
