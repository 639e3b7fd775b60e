// Package provenance keeps the record of where a shop's rule set comes from: the file
// base.yaml in its folder, which says what set it was copied from, when, and what
// every file of that set was, so that it can be told later who changed what.
//
// It touches no disk: it is given bytes and gives bytes.
package provenance
