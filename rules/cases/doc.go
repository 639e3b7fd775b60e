// Package cases runs the worked cases of a rule set: each says what the set must
// answer for some facts, and which rule it just misses. The report also says
// which rules no case wins and which no case just misses.
//
// It is pure: it reads no files and imports nothing but the rules.
package cases
