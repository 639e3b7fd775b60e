package workplan

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
)

// Stage is how much an estimate knows.
type Stage string

// The stages, in the order in which a job comes through them.
const (
	UnseenStage Stage = "unseen"
	PartlySeen  Stage = "partly-inspected"
	Inspected   Stage = "inspected"
	ProvenStage Stage = "proven"
)

// Estimate is what a vehicle is likely to take.
type Estimate struct {
	RuleSet   string
	Stage     Stage
	WorkMin   plan.Span
	Total     plan.MoneySpan
	Materials catalogue.Money // at the likely ladders
	Currency  catalogue.Currency
	Panels    []EstimatedPanel
	Sources   []Source
	Narrows   []string
	// LadderDoubtMin is how far the likely minutes of the two outer ladders lie apart.
	LadderDoubtMin float64
}

// EstimatedPanel is the ladders that a panel is counted with. Panel is "" for one that nobody has seen.
type EstimatedPanel struct {
	Panel, Part       string
	Pieces            int
	Low, Likely, High string
	From              plan.Source
}

// Question is what an estimate is asked of.
type Question struct {
	Job           Job            // its Work is what was inspected; empty when nobody has looked
	Unseen        advisor.Unseen // the vehicle by its size
	OnlyInspected bool
	Vehicle       advisor.Vehicle
	Goal          advisor.Goal
}

// Guess estimates a job. Three plans are made, with the ladders it may need at least, most likely and at most. Errors are those of
// [Make].
func Guess(q Question) (Estimate, error) {
	job := q.whole()
	from := newTrail()
	out := Estimate{RuleSet: job.Work.RuleSet, Stage: q.stage(), Panels: q.panels(from), Currency: job.Shop.Currency()}
	var plans [3]Plan
	for i, end := range []func(ladders) string{ladders.low, ladders.likely, ladders.high} {
		var err error
		if plans[i], err = job.make(func(p *advisor.PanelWork) string { return end(q.ladders(p)) }); err != nil {
			return Estimate{}, err
		}
		for _, s := range plans[i].Sources {
			from.add(s)
		}
	}
	low, likely, high := &plans[0], &plans[1], &plans[2]
	out.WorkMin = plan.Span{Low: low.WorkMin.Low, Likely: likely.WorkMin.Likely, High: high.WorkMin.High}
	out.Total = plan.MoneySpan{Low: low.Cost.Total.Low, Likely: likely.Cost.Total.Likely, High: high.Cost.Total.High}
	out.Materials = likely.Cost.Materials
	out.LadderDoubtMin = high.WorkMin.Likely - low.WorkMin.Likely
	out.Sources = from.list
	out.Narrows = q.narrows(out.Stage)
	return out, nil
}

// whole is the job with the panels that nobody has seen put beside those that were inspected.
func (q *Question) whole() *Job {
	job := q.Job
	job.Work.RuleSet = q.Unseen.RuleSet
	job.Work.Panels = slices.Concat(q.Job.Work.Panels, q.rest())
	if len(q.Job.Work.Panels) == 0 {
		job.Work.Visit = q.Unseen.Visit
	}
	if rest := q.rest(); len(rest) > 0 && len(q.Job.Work.Groups) == 0 {
		all := advisor.Group{} // what nobody has seen is proved on one test spot
		for i := range rest {
			all.Panels = append(all.Panels, rest[i].Panel.ID)
		}
		job.Work.Groups = []advisor.Group{all}
	}
	return &job
}

// rest is the panels of the vehicle that were not inspected. An inspected panel takes the place of one of its part.
func (q *Question) rest() []advisor.PanelWork {
	if q.OnlyInspected {
		return nil
	}
	seen := map[string]int{}
	for i := range q.Job.Work.Panels {
		seen[q.Job.Work.Panels[i].Panel.Part]++
	}
	var out []advisor.PanelWork
	for _, p := range q.Unseen.Panels {
		if seen[p.Panel.Part] > 0 {
			seen[p.Panel.Part]--
			continue
		}
		p.Panel.ID = unseenPrefix + p.Panel.ID
		out = append(out, p)
	}
	return out
}

// unseenPrefix keeps the panels that nobody has seen apart from any that an inspection may name: no id has a space.
const unseenPrefix = "unseen "

func isUnseen(p *advisor.PanelWork) bool { return p.Advice.Panel == "" }

func (q *Question) stage() Stage {
	switch {
	case len(q.Job.Work.Panels) == 0:
		return UnseenStage
	case len(q.rest()) > 0:
		return PartlySeen
	}
	for i := range q.Job.Work.Panels {
		p := &q.Job.Work.Panels[i]
		if q.Job.ladderOf(p) != "none" && !q.proven(p.Panel.ID) {
			return Inspected
		}
	}
	return ProvenStage
}

// proven says whether a trial settled the ladder of a panel, on it or on one of its group.
func (q *Question) proven(id string) bool {
	if q.Job.Proven[id] {
		return true
	}
	for _, group := range q.Job.Work.Groups {
		if slices.Contains(group.Panels, id) && slices.ContainsFunc(group.Panels, func(other string) bool { return q.Job.Proven[other] }) {
			return q.Job.Settled[id] != ""
		}
	}
	return false
}

// ladders are those that a panel may need at least, most likely and at most.
type ladders struct{ lowest, usual, highest string }

func (l ladders) low() string    { return l.lowest }
func (l ladders) likely() string { return l.usual }
func (l ladders) high() string   { return l.highest }

func (q *Question) ladders(p *advisor.PanelWork) ladders {
	if isUnseen(p) {
		return ladders{q.Unseen.Low, q.Unseen.Likely, q.Unseen.High}
	}
	ladder := q.Job.ladderOf(p)
	if _, settled := q.Job.Settled[p.Panel.ID]; settled || q.proven(p.Panel.ID) {
		return ladders{ladder, ladder, ladder}
	}
	return ladders{ladder, ladder, p.Stronger}
}

// panels tells what is counted with, those that nobody has seen part by part.
func (q *Question) panels(from *trail) []EstimatedPanel {
	var out []EstimatedPanel
	for i := range q.Job.Work.Panels {
		p := &q.Job.Work.Panels[i]
		l := q.ladders(p)
		each := EstimatedPanel{Panel: p.Panel.ID, Part: p.Panel.Part, Pieces: 1, Low: l.lowest, Likely: l.usual, High: l.highest}
		if _, settled := q.Job.Settled[p.Panel.ID]; settled {
			each.From = from.text("settled")
		} else {
			each.From = from.rule(p.Advice.LadderReason)
		}
		out = append(out, each)
	}
	for _, p := range q.rest() {
		if at := slices.IndexFunc(out, func(e EstimatedPanel) bool { return e.Panel == "" && e.Part == p.Panel.Part }); at >= 0 {
			out[at].Pieces++
			continue
		}
		out = append(out, EstimatedPanel{
			Part: p.Panel.Part, Pieces: 1, Low: q.Unseen.Low, Likely: q.Unseen.Likely, High: q.Unseen.High, From: from.rule(q.Unseen.Reason),
		})
	}
	return out
}

// narrows says what to do for a narrower range, the most telling first.
func (q *Question) narrows(stage Stage) []string {
	var out []string
	add := func(when bool, do string) {
		if when {
			out = append(out, do)
		}
	}
	add(q.Goal.Level == "", "ask the owner what is wanted")
	add(stage == UnseenStage && q.Vehicle.Paint.AgeYears == nil, "ask for the year of manufacture")
	add(stage == UnseenStage && q.Vehicle.Kept == "", "ask where the vehicle stands")
	add(stage == UnseenStage && q.Vehicle.Paint.Shade == "", "note the shade of the colour")
	add(q.Vehicle.Size == "", "note how large the vehicle is")
	add(stage == UnseenStage, "inspect the vehicle")
	add(stage == PartlySeen, "inspect the other panels")
	if n := q.Job.spots(q.unproven()); n > 0 && stage != UnseenStage {
		out = append(out, fmt.Sprintf("prove the ladders on %d %s", n, plural(n, "test spot")))
	}
	add(len(q.Job.AreasM2) < len(q.Job.Work.Panels), "measure the areas of the panels")
	return out
}

func (q *Question) unproven() map[string]bool {
	out := map[string]bool{}
	for i := range q.Job.Work.Panels {
		p := &q.Job.Work.Panels[i]
		out[p.Panel.ID] = q.Job.ladderOf(p) != "none" && !q.proven(p.Panel.ID)
	}
	return out
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}
