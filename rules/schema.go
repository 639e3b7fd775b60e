package rules

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Kind says what the values of a fact or of a result's field are.
type Kind uint8

// The kinds. The zero Kind is none of them.
const (
	Number Kind = iota + 1
	Word        // one of a closed list
	Flag        // true or false
	Text        // free text for people; in results only
)

// String names the kind in words.
func (k Kind) String() string {
	return [...]string{"no kind", "number", "word", "flag", "text"}[min(k, 5)%5]
}

// Class says how a fact can come to have another value.
type Class uint8

// The classes of facts.
const (
	Given      Class = iota // as it is
	Measurable              // can be measured, or measured again
	Choosable               // ours to choose
)

// String names the class in words.
func (c Class) String() string {
	return [...]string{"given", "measurable", "choosable"}[min(c, 2)]
}

// FactID is the place of a fact in its schema.
type FactID int32

// Fact declares one fact that conditions may name.
type Fact struct {
	Name    string // dotted, as conditions write it: film.usable_um
	Label   string // for people: usable film; the name when empty
	Meaning string // one sentence
	Kind    Kind   // Number, Word or Flag
	Unit    string // of a Number, as people write it; may be empty

	// Min, Max and Step are a Number's bounds and its instrument's step, in the
	// fact's unit. Values are coded on that grid: at most nine decimals, and Max a
	// whole number of steps above Min.
	Min, Max, Step float64

	Words   []string // of a Word: the closed list, at most 62; rising when Ordered
	Ordered bool     // words may be compared with < and >
	Class   Class

	// Learn is what to do to learn the value, an instruction without a full stop:
	// measure film thickness. Facts with the same words are learned by one piece of
	// work. Empty: nobody can be asked for it.
	Learn string

	// Scale lets the words of two facts be compared with each other: both must
	// name the same one, and have the same Words and Ordered. Empty: with no other.
	Scale string
}

// Schema is the facts that conditions may name and the results that tables may
// give. It is immutable and safe for concurrent use.
type Schema struct {
	facts   []Fact
	results []ResultType
	space   *space.Space
	own     string // the group in which a folder may declare facts
	owned   int    // how many of the facts, the last ones, a folder declared
}

var (
	nameShape  = regexp.MustCompile(`^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)*$`)
	fieldShape = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	tableShape = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
)

// reserved are names that the language of conditions keeps to itself.
var reserved = []string{
	"let", "in", "not", "and", "or", "if", "else", "true", "false", "nil", "known",
	"matches", "contains", "startsWith", "endsWith", "abs", "min", "max", "round", "floor", "ceil",
}

// NewSchema checks facts and results and returns every complaint at once, joined.
// The schema keeps copies.
func NewSchema(facts []Fact, results []ResultType) (*Schema, error) {
	s := &Schema{facts: slices.Clone(facts), results: slices.Clone(results)}
	var errs []error
	axes := make([]space.Axis, len(facts))
	names := map[string]bool{}
	scales := map[string]*Fact{}
	for i := range s.facts {
		f := &s.facts[i]
		f.Words = slices.Clone(f.Words)
		if f.Label == "" {
			f.Label = f.Name
		}
		axis, complaints := f.axis()
		axes[i] = axis
		if names[f.Name] {
			complaints = append(complaints, "is declared twice")
		}
		names[f.Name] = true
		if other := scales[f.Scale]; f.Scale == "" || other == nil {
			scales[f.Scale] = f
		} else if !slices.Equal(other.Words, f.Words) || other.Ordered != f.Ordered {
			complaints = append(complaints, fmt.Sprintf("shares scale %s with %s but not its words", f.Scale, other.Name))
		}
		for _, c := range complaints {
			errs = append(errs, fmt.Errorf("fact %s %s", f.Name, c))
		}
	}
	tables := map[string]bool{}
	for i := range s.results {
		r := &s.results[i]
		r.Fields, r.Hits = slices.Clone(r.Fields), slices.Clone(r.Hits)
		complaints := r.complaints()
		if tables[r.Table] {
			complaints = append(complaints, "is declared twice")
		}
		tables[r.Table] = true
		for _, c := range complaints {
			errs = append(errs, fmt.Errorf("table %s %s", r.Table, c))
		}
	}
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	s.space = space.New(axes)
	return s, nil
}

// axis is the fact as the engine sees it, with what is wrong about it.
func (f *Fact) axis() (space.Axis, []string) {
	var bad []string
	a := space.Axis{Name: f.Name, Words: f.Words, Ordered: f.Ordered, Scale: f.Scale}
	if !nameShape.MatchString(f.Name) {
		bad = append(bad, "needs a name of lower-case words joined by dots")
	}
	if first, _, _ := strings.Cut(f.Name, "."); slices.Contains(reserved, first) {
		bad = append(bad, "starts with "+first+", which conditions keep for themselves")
	}
	if f.Class > Choosable {
		bad = append(bad, "has no class")
	}
	switch f.Kind {
	case Number:
		g, err := space.NewGrid(f.Min, f.Max, f.Step)
		if err != nil {
			bad = append(bad, "has no grid: "+err.Error())
		}
		a.Kind, a.Grid = space.Number, g
	case Word:
		a.Kind = space.Word
		bad = append(bad, wordComplaints(f.Words)...)
	case Flag:
		a.Kind = space.Flag
	default:
		bad = append(bad, "must be a number, a word or a flag")
	}
	if f.Kind != Word && (len(f.Words) > 0 || f.Ordered || f.Scale != "") {
		bad = append(bad, "is no word and has words, an order or a scale")
	}
	return a, bad
}

func wordComplaints(words []string) []string {
	var bad []string
	if len(words) == 0 || len(words) > space.MaxWords {
		bad = append(bad, fmt.Sprintf("has %d words, 1 to %d are possible", len(words), space.MaxWords))
	}
	for i, w := range words {
		if w == "" || strings.TrimSpace(w) != w {
			bad = append(bad, fmt.Sprintf("has the word %q", w))
		}
		if slices.Contains(words[:i], w) {
			bad = append(bad, fmt.Sprintf("has the word %q twice", w))
		}
	}
	return bad
}

// Facts are the facts in their order; FactID counts along it. Do not change them.
func (s *Schema) Facts() []Fact { return s.facts }

// Fact is the declaration of id, which must come from this schema.
func (s *Schema) Fact(id FactID) Fact { return s.facts[id] }

// FactID finds a fact by name.
func (s *Schema) FactID(name string) (FactID, bool) {
	i, ok := s.space.Find(name)
	return FactID(i), ok
}

// Results are the result types in their order. Do not change them.
func (s *Schema) Results() []ResultType { return s.results }

// Result is the result type of a table.
func (s *Schema) Result(table string) (ResultType, bool) {
	for _, r := range s.results {
		if r.Table == table {
			return r, true
		}
	}
	return ResultType{}, false
}

func (s *Schema) factNames() []string {
	names := make([]string, len(s.facts))
	for i := range s.facts {
		names[i] = s.facts[i].Name
	}
	return names
}
