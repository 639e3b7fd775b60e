package mutate

import (
	"slices"

	"github.com/glossladder/glossladder/rules/cases"
)

// Finding is a mutant and what became of it.
type Finding struct {
	Mutant  Mutant
	Outcome Outcome
	By      string // of a caught mutant: what notices, "case light marks in soft paint" or "promise every-panel-has-a-limit"
	// Undecided says of a survivor that no input was found which it answers otherwise,
	// nor proved that there is none.
	Undecided bool
	// Case would catch a survivor; nil when undecided, and where the rules as they are
	// hold together and must not, which no case expects.
	Case *cases.Suggestion
}

// Tally counts mutants.
type Tally struct{ Caught, Survived, Same, Refused int }

// Made is the number of mutants.
func (t Tally) Made() int { return t.Caught + t.Survived + t.Same + t.Refused }

// Score is the share of mistakes that are caught, in percent. Mutants that answer as
// before, and those that do not load, are no mistakes that could stay, and do not
// count. Without any mistake it is 100.
func (t Tally) Score() float64 {
	if t.Caught+t.Survived == 0 {
		return 100
	}
	return 100 * float64(t.Caught) / float64(t.Caught+t.Survived)
}

func (t *Tally) count(o Outcome) {
	switch o {
	case Caught:
		t.Caught++
	case Survived:
		t.Survived++
	case Same:
		t.Same++
	case Refused:
		t.Refused++
	}
}

// Report is what became of the mutants of a set.
type Report struct {
	Findings []Finding // table by table, in the order of the rules
}

// All counts every mutant.
func (r Report) All() Tally { return r.tally(func(*Mutant) bool { return true }) }

// Of counts the mutants of a table and a kind; empty stands for all.
func (r Report) Of(table string, kind Kind) Tally {
	return r.tally(func(m *Mutant) bool { return (table == "" || m.Table == table) && (kind == "" || m.Kind == kind) })
}

func (r Report) tally(counts func(*Mutant) bool) Tally {
	var t Tally
	for i := range r.Findings {
		if counts(&r.Findings[i].Mutant) {
			t.count(r.Findings[i].Outcome)
		}
	}
	return t
}

// Survivors are the mutants that nothing notices.
func (r Report) Survivors() []Finding {
	return slices.DeleteFunc(slices.Clone(r.Findings), func(f Finding) bool { return f.Outcome != Survived })
}
