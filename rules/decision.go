package rules

import "github.com/glossladder/glossladder/rules/internal/index"

// Outcome says how a decision came out.
type Outcome uint8

// The outcomes.
const (
	NoRule   Outcome = iota // no rule holds for sure
	Answered                // the hit policy gives an answer
	Conflict                // unique: several rules hold; any: those that hold disagree
)

// String names the outcome in words.
func (o Outcome) String() string {
	return [...]string{"no rule", "answered", "conflict"}[min(o, 2)]
}

// MaxNear is how many near misses a decision keeps, in the table's order.
const MaxNear = 16

// Decision is an answer with its whole explanation. Decide fills it and reuses
// its slices, so what must outlive the next Decide has to be copied. The zero
// Decision is ready. It is not safe for concurrent use.
type Decision struct {
	Outcome Outcome

	// Winners are the rules that give the answer, as places in Table.Rules: one
	// under first, priority and unique; under any all that hold, with equal
	// results; under collect all that hold, in file order. Empty otherwise.
	Winners []int32

	// Conflict are the rules that hold when the outcome is Conflict.
	Conflict []int32

	Checks  []Check       // what each winner asked, fact by fact
	Clauses []ClauseCheck // what each winner asked that is no plain bound
	Pending []Pending     // rules that could yet hold, in the table's order
	Near    []Near        // rules that fail on exactly one thing

	facts   []FactID // of Pending
	finding index.Finding
	scratch index.Scratch
}

// Check is one fact that a winner asked about, and what it let through.
type Check struct {
	Rule int32
	Fact FactID
	Code int32 // of the fact's value on its grid or in its words; -1 when missing

	// Lo and Hi bound a number's codes; Mask has bit k for word k, or bits 0 and 1
	// for false and true.
	Lo, Hi int32
	Mask   uint64

	// Margin is how far a number is from the nearest value that would fail, less
	// one step: 0 when the very next step fails. In the fact's unit; infinite when
	// no value fails or the fact is missing. For an ordered word it counts words
	// likewise, for other facts it is 0.
	Margin float64
}

// ClauseCheck is a condition of a winner that is no bound on a single fact.
type ClauseCheck struct {
	Rule int32
	Text string // what is so: "film.used_um < film.total_um / 3"
}

// Pending is a rule that is neither true nor false yet.
type Pending struct {
	Rule int32
	// Facts are the missing facts that it waits for.
	Facts []FactID
	// Stuck says that arithmetic without a result (a division by zero) keeps it
	// undecided as well; then Facts may be empty.
	Stuck bool
}

// Near is a rule that fails on exactly one thing.
type Near struct {
	Rule   int32
	Fact   FactID // -1 when it is a clause
	Clause string // what must be so, when it is a clause
	box    int32
}
