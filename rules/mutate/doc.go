// Package mutate asks how good the worked cases and promises of a rule set are: it
// makes small mistakes in the rules, one at a time, and looks which of them a case
// or a promise notices.
//
// A mistake that changes no answer for any input is none; it is proved so and left
// out. A mistake that stays unnoticed comes with the case that would notice it.
//
// The package is pure: it reads no files and knows no clock.
package mutate
