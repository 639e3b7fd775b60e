package rules

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// reader walks one file of the folder and notes what is wrong.
type reader struct {
	file     string
	rule     string // the rule it is in
	problems *Problems
}

func (r *reader) complain(pos strictyaml.Pos, message, hint string) {
	r.problems.at(r.file, pos, r.rule, message, hint)
}

// is reports whether a node has a kind, and complains if not. What the YAML
// reader refused was complained about there.
func (r *reader) is(n *strictyaml.Node, k strictyaml.Kind, what string) bool {
	if n.Kind() == k {
		return true
	}
	if n.Kind() != strictyaml.Refused {
		r.complain(n.Pos(), fmt.Sprintf("%s is %s, not %s", what, k, n.Kind()), "")
	}
	return false
}

// keys are a map's values by key; unknown and absent keys are complained about.
func (r *reader) keys(n *strictyaml.Node, what string, required []string, optional ...string) map[string]*strictyaml.Node {
	out := map[string]*strictyaml.Node{}
	if !r.is(n, strictyaml.Map, what) {
		return out
	}
	known := append(slices.Clone(required), optional...)
	var misspelt []string
	for _, e := range n.Entries() {
		if !slices.Contains(known, e.Key) {
			r.complain(e.KeyPos, fmt.Sprintf("%s has no key %s", what, e.Key), Meant(e.Key, known, "the keys are "))
			misspelt = append(misspelt, strictyaml.Nearest(e.Key, known))
			continue
		}
		out[e.Key] = e.Value
	}
	for _, k := range required {
		if out[k] == nil && !slices.Contains(misspelt, k) {
			r.complain(n.Pos(), fmt.Sprintf("%s needs %s", what, k), "")
		}
	}
	return out
}

// Meant is the hint for a word that is none of among: "did you mean soft?" where one is near, otherwise all of them after what list
// says, or nothing if it says nothing.
func Meant(word string, among []string, list string) string {
	if near := strictyaml.Nearest(word, among); near != "" {
		return "did you mean " + near + "?"
	}
	if list == "" || len(among) == 0 {
		return ""
	}
	return list + strings.Join(among, ", ")
}

// text is a non-empty scalar.
func (r *reader) text(n *strictyaml.Node, what string) (string, bool) {
	if n == nil || !r.is(n, strictyaml.Scalar, what) {
		return "", false
	}
	text := strings.TrimSpace(n.Text())
	if text == "" {
		r.complain(n.Pos(), what+" is empty", "")
		return "", false
	}
	return text, true
}

// result reads a rule's then against the table's result type.
func (r *reader) result(n *strictyaml.Node, typ *ResultType) Result {
	out := Result{typ: typ, values: make([]fieldValue, len(typ.Fields))}
	if n == nil || !r.is(n, strictyaml.Map, "then") {
		return out
	}
	named := make([]bool, len(typ.Fields))
	for _, e := range n.Entries() {
		i := typ.index(e.Key)
		if i < 0 {
			names := make([]string, len(typ.Fields))
			for k, f := range typ.Fields {
				names[k] = f.Name
			}
			r.complain(e.KeyPos, fmt.Sprintf("%s is no field of table %s", e.Key, typ.Table), Meant(e.Key, names, "the fields are "))
			continue
		}
		named[i] = true
		if v, ok := r.field(e.Value, &typ.Fields[i]); ok {
			out.values[i] = v
		}
	}
	for i, f := range typ.Fields {
		if f.Required && !named[i] {
			r.complain(n.Pos(), "then needs "+f.Name, "it says: "+strings.TrimSuffix(f.Meaning, "."))
		}
	}
	return out
}

// field reads one value of a result.
func (r *reader) field(n *strictyaml.Node, f *Field) (fieldValue, bool) {
	v := fieldValue{set: true}
	if f.List {
		if !r.is(n, strictyaml.List, f.Name) {
			return v, false
		}
		good := true
		for _, item := range n.Items() {
			w, ok := r.word(item, f)
			good = good && ok
			if ok && slices.Contains(v.words, w) {
				r.complain(item.Pos(), fmt.Sprintf("%s names %q twice", f.Name, w), "")
				good = false
			}
			v.words = append(v.words, w)
		}
		return v, good
	}
	if !r.is(n, strictyaml.Scalar, f.Name) {
		return v, false
	}
	switch f.Kind {
	case Number:
		x, err := n.Number()
		if err != nil {
			r.complain(n.Pos(), f.Name+" is a number: "+err.Error(), "")
			return v, false
		}
		v.number = x
		return v, r.within(n, f, x)
	case Flag:
		b, err := n.Bool()
		if err != nil {
			r.complain(n.Pos(), f.Name+" is true or false: "+err.Error(), "")
			return v, false
		}
		v.flag = b
		return v, true
	}
	w, ok := r.word(n, f)
	v.words = []string{w}
	return v, ok
}

func (r *reader) word(n *strictyaml.Node, f *Field) (string, bool) {
	w, ok := r.text(n, f.Name)
	if !ok || f.Kind == Text {
		return w, ok
	}
	if !slices.Contains(f.Words, w) {
		r.complain(n.Pos(), fmt.Sprintf("%s is never %q", f.Name, w), Meant(w, f.Words, "it is one of "))
		return w, false
	}
	return w, true
}

func (r *reader) within(n *strictyaml.Node, f *Field, x float64) bool {
	if x < f.Min || x > f.Max {
		r.complain(n.Pos(), fmt.Sprintf("%s is %s, it must be %s to %s%s", f.Name, showNumber(x), showNumber(f.Min), showNumber(f.Max), unit(f.Unit)), "")
		return false
	}
	if f.Step == 0 {
		return true
	}
	grid, err := f.grid()
	if err != nil {
		return true // the schema was checked
	}
	code, on := grid.Code(x)
	if !on {
		r.complain(n.Pos(), fmt.Sprintf("%s is %s, it comes in steps of %s", f.Name, showNumber(x), showNumber(f.Step)),
			"the nearest is "+showNumber(grid.Value(code)))
	}
	return on
}
