package rules

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"sort"
)

// Set is a whole folder of rules: one table for each of the schema's result
// types, the documents beside them, and the worked cases. It is immutable and
// safe for concurrent use.
type Set struct {
	schema *Schema
	tables []*Table // in the schema's order
	docs   map[string]any
	files  map[string][]byte
	cases  []Case
	hash   string
}

// Hash is the SHA-256 of every file that was read, names and bytes, in hex. The
// same files have the same hash on every platform.
func (s *Set) Hash() string { return s.hash }

// Schema is the schema that the set was loaded for.
func (s *Set) Schema() *Schema { return s.schema }

// Tables are the tables in the order of the schema's results. Do not change them.
func (s *Set) Tables() []*Table { return s.tables }

// Table finds a table by name.
func (s *Set) Table(name string) (*Table, bool) {
	for _, t := range s.tables {
		if t.name == name {
			return t, true
		}
	}
	return nil, false
}

// Document is what a [Document]'s Read returned.
func (s *Set) Document(name string) (any, bool) { d, ok := s.docs[name]; return d, ok }

// Source is the text of a file of the set. Do not change it.
func (s *Set) Source(file string) ([]byte, bool) { b, ok := s.files[file]; return b, ok }

// Files are the names of the files that make the set, sorted.
func (s *Set) Files() []string { return sortedNames(s.files) }

// Cases are the worked cases by file and place. Do not change them.
func (s *Set) Cases() []Case { return s.cases }

func sortedNames(files map[string][]byte) []string {
	names := make([]string, 0, len(files))
	for n := range files {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}

// HashOf is the [Set.Hash] that a set of these files has.
func HashOf(files map[string][]byte) string { return hashOf(files) }

func hashOf(files map[string][]byte) string {
	h := sha256.New()
	for _, name := range sortedNames(files) {
		fmt.Fprintf(h, "%d %s %d\n", len(name), name, len(files[name]))
		h.Write(files[name])
	}
	return hex.EncodeToString(h.Sum(nil))
}
