package check

import "github.com/glossladder/glossladder/rules"

// Outcome is what came of a question about a table.
type Outcome string

// The outcomes.
const (
	Proved    Outcome = "proved"         // for every input
	Refuted   Outcome = "counterexample" // a finding says where
	Undecided Outcome = "not decided"    // a finding says what stands in the way
	NotAsked  Outcome = "not asked"      // the hit policy has no such question

)

// Report is what a check found out about a set.
type Report struct {
	Tables   []TableReport // in the order of the schema's results
	Findings []Finding     // by file and place
}

// TableReport says what is known about a table: nothing passes in silence.
type TableReport struct {
	Table, File string
	Hit         rules.Hit
	Rules       int

	Answers  Outcome // every input is answered; not asked of a table that collects
	Agrees   Outcome // no two rules hold that may not; asked under unique and any
	Wins     Outcome // every rule answers for some input; under unique, any and collect: holds for some
	Steps    int     // taken for all of it
	Accepted int     // findings that the file accepts
}

// Open are the findings that the files do not accept.
func (r Report) Open() []Finding {
	var out []Finding
	for _, f := range r.Findings {
		if f.Accepted == "" {
			out = append(out, f)
		}
	}
	return out
}

// orUndecided is the outcome of a question of which a part is not decided: what is
// refuted stays so.
func orUndecided(o Outcome) Outcome {
	if o == Refuted {
		return o
	}
	return Undecided
}
