package provenance

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Record is the set that a folder was copied from.
type Record struct {
	// From says what was copied: "shipped".
	From string
	// Set is the hash of that set.
	Set string
	// Version is the version of the program that shipped it.
	Version string
	// Copied is the day of the copy, at midnight in UTC.
	Copied time.Time
	// Files are the SHA-256 of every file of the set by name, in hex.
	Files map[string]string
}

// Shipped says that the rules as shipped were copied.
const Shipped = "shipped"

const dayForm = "2006-01-02"

// Of is the record of a copy of a set.
func Of(set *rules.Set, from, version string, day time.Time) Record {
	b := Record{From: from, Set: set.Hash(), Version: version, Copied: day.UTC().Truncate(24 * time.Hour), Files: map[string]string{}}
	for _, name := range set.Files() {
		src, _ := set.Source(name)
		b.Files[name] = sum(src)
	}
	return b
}

func sum(src []byte) string {
	hash := sha256.Sum256(src)
	return hex.EncodeToString(hash[:])
}

// Changed are the names of the files in which a set differs from the one that was
// copied, those that one of them lacks among them, in order.
func (b *Record) Changed(set *rules.Set) []string {
	names := map[string]bool{}
	for _, name := range set.Files() {
		src, _ := set.Source(name)
		if b.Files[name] != sum(src) {
			names[name] = true
		}
	}
	for name := range b.Files {
		if _, ok := set.Source(name); !ok {
			names[name] = true
		}
	}
	return slices.Sorted(maps.Keys(names))
}

// Bytes is the record as a file, which [Parse] reads back.
func (b *Record) Bytes() []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Where these rules come from. glossladder rules copy wrote it and rules diff reads it; it decides nothing.\n")
	fmt.Fprintf(&out, "from: %s\nset: %s\nversion: %s\ncopied: %s\nfiles:\n", b.From, strconv.Quote(b.Set), strconv.Quote(b.Version), b.Copied.Format(dayForm))
	for _, name := range slices.Sorted(maps.Keys(b.Files)) {
		fmt.Fprintf(&out, "  %s: %s\n", strconv.Quote(name), strconv.Quote(b.Files[name]))
	}
	return out.Bytes()
}

var hashShape = regexp.MustCompile(`^[0-9a-f]{64}$`)

// Parse reads a record, or gives everything that is wrong with it as [strictyaml.Problems].
func Parse(file string, src []byte) (Record, error) {
	root, problems := strictyaml.Parse(file, src)
	r := reader{problems: problems}
	var b Record
	if root != nil {
		b = r.base(root)
	}
	if len(r.problems) > 0 {
		r.problems.Sort()
		return Record{}, r.problems
	}
	return b, nil
}

type reader struct{ problems strictyaml.Problems }

func (r *reader) complain(at *strictyaml.Node, message, hint string) {
	r.problems = append(r.problems, at.Problem(message, hint))
}

func (r *reader) base(root *strictyaml.Node) Record {
	var b Record
	if root.Kind() != strictyaml.Map {
		r.complain(root, "the record of the base is a map, not "+root.Kind().String(), "")
		return b
	}
	seen := map[string]bool{}
	for _, e := range root.Entries() {
		seen[e.Key] = true
		switch e.Key {
		case "from":
			if b.From = r.text(e.Value); b.From != Shipped {
				r.complain(e.Value, "from is "+Shipped, "")
			}
		case "set":
			b.Set = r.hash(e.Value)
		case "version":
			b.Version = r.text(e.Value)
		case "copied":
			day, err := time.Parse(dayForm, r.text(e.Value))
			if b.Copied = day; err != nil {
				r.complain(e.Value, "copied is a day", "write it like 2026-11-25")
			}
		case "files":
			b.Files = r.files(e.Value)
		default:
			r.complain(e.Value, e.Key+" is no part of the record of the base", "it has from, set, version, copied and files")
		}
	}
	for _, key := range []string{"from", "set", "version", "copied", "files"} {
		if !seen[key] {
			r.complain(root, key+" is missing", "copy the rules anew to see what the record looks like")
		}
	}
	return b
}

func (r *reader) files(n *strictyaml.Node) map[string]string {
	if n.Kind() != strictyaml.Map {
		r.complain(n, "files is a map of names and hashes", "")
		return nil
	}
	out := map[string]string{}
	for _, e := range n.Entries() {
		out[e.Key] = r.hash(e.Value)
	}
	return out
}

func (r *reader) text(n *strictyaml.Node) string {
	if n.Kind() != strictyaml.Scalar {
		r.complain(n, "this is a text, not "+n.Kind().String(), "")
		return ""
	}
	return n.Text()
}

func (r *reader) hash(n *strictyaml.Node) string {
	text := r.text(n)
	if !hashShape.MatchString(text) {
		r.complain(n, "this is no hash", "a hash is 64 digits and letters from a to f")
	}
	return text
}
