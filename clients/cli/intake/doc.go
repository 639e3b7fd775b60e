// Package intake turns the files that people write, YAML, JSON or CSV, into messages of the contract.
//
// It owns: field names and words as people may write them, units as they may write them, what a number without a unit
// means, the columns of a table of readings, and where in which file each field came from. It reports every mistake of
// the files at once, each with its place.
//
// It leaves bounds and meaning to the service, opens no files, and never imports service/app.
package intake
