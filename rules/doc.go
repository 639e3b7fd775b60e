// Package rules loads tables of rules from a folder, decides by them, and
// explains every decision.
//
// It owns the file format, the conditions and their three-valued meaning, the
// hit policies (as OMG DMN 1.5 defines them, clause Hit policy), and the explanation: why a
// rule won, why another did not, and which missing facts could still change the
// answer. It is given the facts and the results of its tables as a [Schema] and
// knows nothing of what they mean.
//
// A fact that nobody gave is missing, never zero. A condition is then true,
// false or undecided, and a rule fires only when its condition is definitely
// true.
//
// Load reads a folder and gives a whole [Set] or all its [Problems]. A Set is
// immutable and safe for concurrent use; an [Input], a [Decision] and a
// [Scratch] belong to one goroutine at a time.
//
// The package never imports proto, SQL, HTTP, os, a clock or a log.
package rules
