// Package shipped owns the rule files that a shop starts from: the decision
// tables, a catalogue of invented examples, and the worked cases that show what
// every rule is for. They are data; a shop copies the folder and edits it.
//
// The package holds no logic and imports nothing but the standard library. Files
// are read by package rules, against the schema of package vocabulary.
package shipped

import (
	"embed"
	"io/fs"
)

//go:embed *.yaml cases/*.yaml
var files embed.FS

// Files returns the shipped folder as rules.Load reads it: tables and the
// catalogue at its top, worked cases under cases. It cannot be written to and is
// safe for concurrent use.
func Files() fs.FS { return files }
