package advisor

import (
	"errors"
	"fmt"
	"sync"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/catalogue"
)

// Advisor answers from one rule set. It keeps nothing between calls and is safe for concurrent use.
type Advisor struct {
	set       *rules.Set
	catalogue *catalogue.Catalogue
	tables    tables
	// askable is, by table, the facts it reads that somebody can be asked for, by what to do to learn them.
	askable map[*rules.Table][]askable
	// cuts are the bounds that rules of any table name, by fact.
	cuts [][]float64
	// decisions are reused from call to call: once grown, a decision costs no allocation.
	decisions sync.Pool
}

// tables are the decisions in the order in which they are asked.
type tables struct {
	policy, removal, readiness, start, limit, ladder, settings, cautions, verdict *rules.Table
}

// New prepares an adviser. The set must hold every table that the adviser asks. The catalogue may be nil: then
// combinations are named by class only.
func New(set *rules.Set, shop *catalogue.Catalogue) (*Advisor, error) {
	a := &Advisor{set: set, catalogue: shop}
	var missing error
	for name, into := range map[string]**rules.Table{
		"policy": &a.tables.policy, "removal": &a.tables.removal, "readiness": &a.tables.readiness,
		"start": &a.tables.start, "limit": &a.tables.limit, "ladder": &a.tables.ladder,
		"settings": &a.tables.settings, "cautions": &a.tables.cautions, "verdict": &a.tables.verdict,
	} {
		table, ok := set.Table(name)
		if !ok {
			missing = errors.Join(missing, fmt.Errorf("rule set has no table %s", name))
		}
		*into = table
	}
	if missing != nil {
		return nil, missing
	}
	a.cuts = cutsOf(set)
	a.askable = map[*rules.Table][]askable{}
	for _, table := range set.Tables() {
		a.askable[table] = askableIn(table)
	}
	return a, nil
}

// RuleSet is the content hash of the set that answers.
func (a *Advisor) RuleSet() string { return a.set.Hash() }

// Set is the rule set that answers.
func (a *Advisor) Set() *rules.Set { return a.set }

// Recommend gives the ladder worth trying first for every panel.
//
// The error is an [*InputError] for readings that cannot be reckoned with, every one at once, or a [*RulesError] for a
// rule set that breaks a guard.
func (a *Advisor) Recommend(in Inspection) (Recommendation, error) { return a.recommend(in, nil) }

func (a *Advisor) recommend(in Inspection, notes *notes) (Recommendation, error) {
	decision, giveBack := a.borrowDecision()
	defer giveBack()
	cases, err := a.studyNoting(in, decision, notes)
	if err != nil {
		return Recommendation{}, err
	}
	out := Recommendation{RuleSet: a.set.Hash(), Panels: make([]PanelAdvice, 0, len(cases))}
	for _, c := range cases {
		advice, err := c.advise()
		if err != nil {
			return Recommendation{}, err
		}
		out.Panels = append(out.Panels, advice)
		notes.finish(c)
	}
	out.Groups = groupPanels(cases, out.Panels)
	out.Cautions = shareCautions(out.Panels)
	out.MeasureNext = mergeWanted(out.Panels)
	return out, nil
}

// borrowDecision gives room for decisions, and the way to give it back.
func (a *Advisor) borrowDecision() (*rules.Decision, func()) {
	decision, ok := a.decisions.Get().(*rules.Decision)
	if !ok {
		decision = &rules.Decision{}
	}
	return decision, func() { a.decisions.Put(decision) }
}

// study reckons everything about every panel that does not need a decision after the policy. The decision is used for one
// question after another.
func (a *Advisor) study(in Inspection, decision *rules.Decision) ([]*panelCase, error) {
	return a.studyNoting(in, decision, nil)
}

func (a *Advisor) studyNoting(in Inspection, decision *rules.Decision, notes *notes) ([]*panelCase, error) {
	wrong := a.ownTroubles(&in)
	cases := make([]*panelCase, len(in.Panels))
	for i := range in.Panels {
		c, err := a.openNoting(&in, i, decision, notes)
		if err != nil {
			return nil, err
		}
		c.measure(&wrong)
		cases[i] = c
	}
	if err := wrong.asError(); err != nil {
		return nil, err
	}
	for _, c := range cases {
		if err := c.reckon(cases); err != nil {
			return nil, err
		}
	}
	return cases, nil
}
