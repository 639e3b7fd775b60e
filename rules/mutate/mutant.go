package mutate

import "fmt"

// Kind says what kind of mistake was made.
type Kind string

// The kinds of mistakes.
const (
	Bound  Kind = "bound"  // a bound moved by one step of its fact, or by one word
	Clause Kind = "clause" // a part of a condition left out
	Order  Kind = "order"  // two neighbouring rules change places, where the order counts
	Result Kind = "result" // a rule answers as its neighbour does
	Rule   Kind = "rule"   // a rule is gone
)

// Kinds are all kinds in the order in which they are told.
func Kinds() []Kind { return []Kind{Bound, Clause, Order, Result, Rule} }

// Mutant is one small mistake in a table.
type Mutant struct {
	Table string
	Kind  Kind
	Rule  string // the rule that was changed; empty for a let
	Let   string // the let that was changed; empty for a rule
	File  string
	Line  int // from 1
	Col   int
	Was   string // what was changed
	Now   string // what stands there instead; empty when it is left out

	source []byte // the table with the mistake
	// reordered are the ids of rules that changed places.
	reordered []string
}

// String is "start.yaml:57:11: soft-paint-starts-mild: defect.severity > 0 becomes defect.severity > 0.5".
func (m *Mutant) String() string {
	return fmt.Sprintf("%s:%d:%d: %s", m.File, m.Line, m.Col, m.Change())
}

// Change is what was changed, in words.
func (m *Mutant) Change() string {
	what := m.Rule
	if m.Let != "" {
		what = "let." + m.Let
	}
	switch {
	case m.Kind == Rule:
		return what + " is gone"
	case m.Kind == Order:
		return fmt.Sprintf("%s and %s change places", what, m.Now)
	case m.Kind == Result:
		return fmt.Sprintf("%s answers as %s does", what, m.Now)
	case m.Now == "":
		return fmt.Sprintf("%s without %s", what, m.Was)
	}
	return fmt.Sprintf("%s: %s becomes %s", what, m.Was, m.Now)
}

// Outcome is what became of a mutant.
type Outcome string

// The outcomes.
const (
	Caught   Outcome = "caught"   // a case or a promise notices
	Survived Outcome = "survived" // nothing notices
	Same     Outcome = "same"     // proved to answer every input as before, so it is no mistake
	Refused  Outcome = "refused"  // the table does not load, so it is no mistake that could stay
)
