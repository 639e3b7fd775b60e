package rules

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Hit is a table's hit policy: what it answers when several rules hold. The
// meanings are those of OMG DMN 1.5, clause Hit policy.
type Hit string

// The hit policies.
const (
	Unique   Hit = "unique"   // at most one rule may hold; two are a conflict
	Any      Hit = "any"      // several may hold if their results are equal
	Priority Hit = "priority" // the rule with the strongest result wins
	First    Hit = "first"    // the first rule in file order wins
	Collect  Hit = "collect"  // all rules that hold, in file order (DMN's rule order)
)

var hits = []Hit{Unique, Any, Priority, First, Collect}

// Field declares one field of a table's result.
type Field struct {
	Name, Meaning, Unit string
	Kind                Kind // Number, Word, Flag or Text

	Min, Max, Step float64  // of a Number; Step 0: any value within the bounds
	Words          []string // of a Word
	Ordered        bool     // the words rise

	List     bool // a list of words or of texts
	Required bool // every rule must give it
}

// ResultType declares what the rules of one table answer.
type ResultType struct {
	Table, Meaning string
	Fields         []Field

	// Hits are the hit policies a file may choose for this table; empty: any.
	Hits []Hit

	// Priority is the ordered word field that decides under [Priority]. The
	// strongest word is the last one if HighestWins, else the first.
	Priority    string
	HighestWins bool
}

// Field finds a field by name.
func (r *ResultType) Field(name string) (Field, bool) {
	if i := r.index(name); i >= 0 {
		return r.Fields[i], true
	}
	return Field{}, false
}

func (r *ResultType) index(name string) int {
	return slices.IndexFunc(r.Fields, func(f Field) bool { return f.Name == name })
}

func (r *ResultType) complaints() []string {
	var bad []string
	if !tableShape.MatchString(r.Table) {
		bad = append(bad, "needs a name of lower-case words joined by dashes")
	}
	if len(r.Fields) == 0 {
		bad = append(bad, "has no fields")
	}
	for i := range r.Fields {
		f := &r.Fields[i]
		for _, c := range f.complaints() {
			bad = append(bad, "field "+f.Name+" "+c)
		}
		if r.index(f.Name) != i {
			bad = append(bad, "has two fields "+f.Name)
		}
	}
	for _, h := range r.Hits {
		if !slices.Contains(hits, h) {
			bad = append(bad, fmt.Sprintf("allows hit policy %q, which does not exist", h))
		}
	}
	p, ok := r.Field(r.Priority)
	if r.Priority != "" && (!ok || p.Kind != Word || !p.Ordered || p.List || !p.Required) {
		bad = append(bad, fmt.Sprintf("takes its priority from %q, which is no required field of one ordered word", r.Priority))
	}
	if r.Priority == "" && slices.Contains(r.Hits, Priority) {
		bad = append(bad, "allows priority but names no field for it")
	}
	return bad
}

func (f *Field) complaints() []string {
	var bad []string
	if !fieldShape.MatchString(f.Name) {
		bad = append(bad, "needs a name in lower case")
	}
	switch f.Kind {
	case Number:
		if f.Min >= f.Max {
			bad = append(bad, fmt.Sprintf("has bounds %v to %v", f.Min, f.Max))
		} else if f.Step != 0 {
			if _, err := f.grid(); err != nil {
				bad = append(bad, "has no grid: "+err.Error())
			}
		}
	case Word:
		bad = append(bad, wordComplaints(f.Words)...)
	case Flag, Text:
	default:
		bad = append(bad, "has no kind")
	}
	if f.List && f.Kind != Word && f.Kind != Text {
		bad = append(bad, "is a list of "+f.Kind.String()+"s; only words and texts come in lists")
	}
	return bad
}

func (f *Field) grid() (space.Grid, error) { return space.NewGrid(f.Min, f.Max, f.Step) }

// policies are those a file may choose.
func (r *ResultType) policies() []Hit {
	var out []Hit
	for _, h := range hits {
		if len(r.Hits) > 0 && !slices.Contains(r.Hits, h) || h == Priority && r.Priority == "" {
			continue
		}
		out = append(out, h)
	}
	return out
}

func hitNames(hs []Hit) string {
	names := make([]string, len(hs))
	for i, h := range hs {
		names[i] = string(h)
	}
	return strings.Join(names, ", ")
}
