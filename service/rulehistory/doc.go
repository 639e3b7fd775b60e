// Package rulehistory keeps every rule set that came into force: whole, by its hash, with when and by which way. An old
// decision can so be looked at again by the rules that made it, and a service whose folder does not load can start on the
// last set of it that did.
//
// It keeps plain files, so that a person can read them, and several processes may use one folder at once:
//
//	sets/HASH/start.yaml       the files of a set as they were
//	entries/000000000042.json  the 42nd time that a set came into force
//	wrong/NAME                 since when the files of a folder do not load
//
// It stores texts and times. What a set means it leaves to its callers.
package rulehistory
