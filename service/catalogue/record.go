package catalogue

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// record is one map of the file under reading. A value that cannot be read is told once and counts as zero.
type record struct {
	r      *reader
	node   *strictyaml.Node
	name   string // as a sentence names it: pad "soft-130"
	fields map[string]*strictyaml.Node
}

// span is what a number may be; both ends belong to it. Spans are wide: they catch a slipped point or a wrong unit and judge
// nothing (common practice, no source).
type span struct {
	min, max float64
	unit     string // empty when the key says it all
}

// record checks that the node is a map and has no keys but these.
func (r *reader) record(node *strictyaml.Node, what string, keys ...string) (record, bool) {
	rec := record{r: r, node: node, name: what, fields: map[string]*strictyaml.Node{}}
	if node.Kind() != strictyaml.Map {
		if node.Kind() != strictyaml.Refused {
			r.refuse(node, fmt.Sprintf("%s is %s", what, node.Kind()), "write a map with the keys "+strings.Join(keys, ", "))
		}
		return rec, false
	}
	for _, e := range node.Entries() {
		rec.fields[e.Key] = e.Value
	}
	if id := rec.fields["id"]; id.Text() != "" {
		rec.name = fmt.Sprintf("%s %q", what, id.Text())
	}
	for _, e := range node.Entries() {
		if slices.Contains(keys, e.Key) {
			continue
		}
		hint := "its keys are " + strings.Join(keys, ", ")
		if near := strictyaml.Nearest(e.Key, keys); near != "" {
			hint = fmt.Sprintf("did you mean %s?", near)
		}
		r.problems = append(r.problems, strictyaml.Problem{
			File: node.File(), Pos: e.KeyPos, Message: fmt.Sprintf("%s is not a key of %s", e.Key, rec.name), Hint: hint,
		})
	}
	return rec, true
}

func (rec record) missing(key string) {
	rec.r.refuse(rec.node, fmt.Sprintf("%s has no %s", rec.name, key), "")
}

// text reads a scalar as it is written. The node is nil if there is none to complain about further.
func (rec record) text(key string) (string, *strictyaml.Node) {
	node, there := rec.fields[key]
	switch {
	case !there:
		rec.missing(key)
	case node.Kind() == strictyaml.Refused:
	case node.Kind() != strictyaml.Scalar:
		rec.r.refuse(node, fmt.Sprintf("%s is %s", key, node.Kind()), "write a single value")
	default:
		text := node.Text()
		return text, node
	}
	return "", nil
}

// maxID is the longest id in letters.
const maxID = 64

// id reads the id, which must be new to the file.
func (rec record) id() string {
	id, at := rec.text("id")
	if at == nil {
		return id
	}
	if !kebab(id) || len(id) > maxID {
		rec.r.refuse(at, fmt.Sprintf("the id %q is not in kebab case", id),
			fmt.Sprintf("use small letters and digits in words joined by single dashes, at most %d", maxID))
	} else if first, twice := rec.r.ids[id]; twice {
		rec.r.refuse(at, fmt.Sprintf("the id %q is given twice", id), fmt.Sprintf("the first is on line %d", first.Line))
	} else {
		rec.r.ids[id] = at.Pos()
	}
	return id
}

func kebab(id string) bool {
	for word := range strings.SplitSeq(id, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// word reads one of the classes.
func word[C ~string](rec record, key string, classes []C) C {
	text, at := rec.text(key)
	words := Words(classes)
	if at == nil || slices.Contains(words, text) {
		return C(text)
	}
	hint := "it is one of " + strings.Join(words, ", ")
	if near := strictyaml.Nearest(text, words); near != "" {
		hint = fmt.Sprintf("did you mean %s?", near)
	}
	rec.r.refuse(at, fmt.Sprintf("%q is not a %s of %s", text, key, rec.name), hint)
	return ""
}

// money reads an amount in the currency of the file. If that is not known the amounts cannot be judged.
func (rec record) money(key string) Money {
	text, at := rec.text(key)
	if at == nil || rec.r.currency.Code() == "" {
		return 0
	}
	m, err := rec.r.currency.Parse(text)
	if err != nil {
		rec.r.refuse(at, fmt.Sprintf("%s: %s", key, err), "")
	}
	return m
}

// number reads a number that must be there.
func (rec record) number(key string, in span) float64 {
	if rec.fields[key] == nil {
		rec.missing(key)
	}
	return rec.figure(key, in).value
}

// figure reads a number that may be left out.
func (rec record) figure(key string, in span) Figure {
	node := rec.fields[key]
	if node.Kind() == strictyaml.Refused {
		return Figure{}
	}
	v, err := node.Number()
	if err != nil {
		rec.r.refuse(node, fmt.Sprintf("%s: %s", key, err), "")
		return Figure{}
	}
	if v < in.min || v > in.max {
		rec.r.refuse(node, strings.TrimSpace(fmt.Sprintf("%s is %s %s", key, short(v), in.unit)), fmt.Sprintf("from %s to %s is allowed", short(in.min), short(in.max)))
		return Figure{}
	}
	return FigureOf(v)
}

// only reads a number that a thing of this class must have (here) or cannot have (not here). A class that could not be read
// is told already; then nothing more can be said.
func (rec record) only(here bool, class, key string, in span) Figure {
	node := rec.fields[key]
	switch {
	case class == "":
		return Figure{}
	case here && node == nil:
		rec.missing(key)
	case here:
		return rec.figure(key, in)
	case node != nil:
		rec.r.refuse(node, fmt.Sprintf("%s does not go with %s", key, class), "take it out, or change the class")
	}
	return Figure{}
}

// rising checks that a lowest value is not above its highest.
func (rec record) rising(low string, lowest Figure, high string, highest Figure) {
	if lowest.known && highest.known && lowest.value > highest.value {
		rec.r.refuse(rec.fields[low], fmt.Sprintf("%s is %s, above %s, which is %s", low, short(lowest.value), high, short(highest.value)), "swap them?")
	}
}

func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
