package rules

// BaseFile says which set a folder was copied from; package provenance reads and writes it.
// It decides nothing, so it is no part of a set: [Load] passes it by, and it does not
// count in the hash.
const BaseFile = "base.yaml"
