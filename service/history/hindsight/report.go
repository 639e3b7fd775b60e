package hindsight

import (
	"cmp"
	"slices"

	"github.com/glossladder/glossladder/service/history/lessons"
)

// Report is what another set would have answered to what is on record, and what the outcomes say of it.
type Report struct {
	// RuleSet is the content hash of the other set.
	RuleSet string
	// Decisions is how many recorded decisions were asked again, Panels how many panels they speak of. Advice and Verdicts are how
	// many of the panels are of either kind.
	Decisions, Panels, Advice, Verdicts int
	// Sets is by how many different sets they were made.
	Sets int
	// Moves are the changes of answers, table by table, the most frequent first within each.
	Moves []Move
	// Classes are the classes of panel in which something changes, the most changes first.
	Classes []ClassReport
	// All is the outcome over all classes.
	All Tally
	// Unfollowed are fields of the policy that differ and whose consequences are not followed, with how many panels.
	Unfollowed map[string]int
	// UnknownSets is how many panels were decided by a set that is not kept, so that changed numbers of policy and removal are not
	// followed there.
	UnknownSets int
	// Strange is how many facts on record the vocabulary of today no longer has; they count as not known.
	Strange int
}

// Move is one change of an answer.
type Move struct {
	Table    string
	Was, Is  string // "" where no rule answers
	Panels   int
	Examples []Example
}

// Example is one panel of one job.
type Example struct {
	Job, Panel string
	// Event is the decision's sequence.
	Event int64
}

// examples is how many are kept of each move.
const mostExamples = 3

// ClassReport is what changes in one class of panel.
type ClassReport struct {
	// Class is without a step.
	Class lessons.Class
	Tally
}

// Tally is what changes, and what outcomes say of it.
type Tally struct {
	// Panels is how many panels were asked about; a panel counts once for each decision.
	Panels int
	// Starts, Limits, Readiness, Ladders, Settings, Cautions and Verdicts count changed answers.
	Starts, Limits, Readiness, Ladders, Settings, Cautions, Verdicts int
	// ForNew, ForOld, Neither and Open count what outcomes say of panels whose ladder would start otherwise, or whose verdict would
	// be another. Only the last advice before the trials, and verdicts, are judged; each panel once.
	ForNew, ForOld, Neither, Open int
	// Trials is how many trials the new answers save, Timed how many of them were timed and Minutes how long those took; FilmUm is
	// what is expected to stay on the panels. Below zero: the new answers cost more.
	Trials, Timed int
	Minutes       float64
	FilmUm        float64
}

// Changed counts all changed answers.
func (t *Tally) Changed() int {
	return t.Starts + t.Limits + t.Readiness + t.Ladders + t.Settings + t.Cautions + t.Verdicts
}

func (t *Tally) add(o *Tally) {
	t.Panels += o.Panels
	t.Starts, t.Limits, t.Readiness, t.Ladders = t.Starts+o.Starts, t.Limits+o.Limits, t.Readiness+o.Readiness, t.Ladders+o.Ladders
	t.Settings, t.Cautions, t.Verdicts = t.Settings+o.Settings, t.Cautions+o.Cautions, t.Verdicts+o.Verdicts
	t.ForNew, t.ForOld, t.Neither, t.Open = t.ForNew+o.ForNew, t.ForOld+o.ForOld, t.Neither+o.Neither, t.Open+o.Open
	t.Trials, t.Timed = t.Trials+o.Trials, t.Timed+o.Timed
	t.Minutes, t.FilmUm = t.Minutes+o.Minutes, t.FilmUm+o.FilmUm
}

// moveKey is a change of an answer.
type moveKey struct{ table, was, is string }

// moves are changes as they are found.
type moves map[moveKey]*Move

func (m moves) note(table, was, is string, at Example) {
	key := moveKey{table, was, is}
	found := m[key]
	if found == nil {
		found = &Move{Table: table, Was: was, Is: is}
		m[key] = found
	}
	found.Panels++
	if len(found.Examples) < mostExamples {
		found.Examples = append(found.Examples, at)
	}
}

// tables in the order in which they are asked.
var tables = []string{"start", "limit", "readiness", "ladder", "settings", "cautions", "verdict"}

func (m moves) sorted() []Move {
	out := make([]Move, 0, len(m))
	for _, move := range m {
		out = append(out, *move)
	}
	slices.SortFunc(out, func(a, b Move) int {
		return cmp.Or(cmp.Compare(slices.Index(tables, a.Table), slices.Index(tables, b.Table)), cmp.Compare(b.Panels, a.Panels),
			cmp.Compare(a.Was, b.Was), cmp.Compare(a.Is, b.Is))
	})
	return out
}

func byChange(a, b ClassReport) int {
	return cmp.Or(cmp.Compare(b.Changed(), a.Changed()), cmp.Compare(b.Panels, a.Panels),
		cmp.Compare(a.Class.Softness, b.Class.Softness), cmp.Compare(a.Class.Band, b.Class.Band),
		cmp.Compare(a.Class.Kind, b.Class.Kind), cmp.Compare(a.Class.Shade, b.Class.Shade))
}
