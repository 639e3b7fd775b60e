package advisor

import (
	"fmt"
	"slices"
)

// Work is what the tables say about working a vehicle: everything that a plan is reckoned from.
type Work struct {
	RuleSet string
	Visit   Visit
	Panels  []PanelWork
	Groups  []Group
}

// Visit is what the vehicle takes once, in minutes; LowPct and HighPct are the ends of all but the cure, in % of the likely.
type Visit struct {
	PrepareMin, TrialMin, FinalMin, CureMin float64
	LowPct, HighPct                         float64
	Reason                                  Reason
}

// PanelWork is one panel and every ladder that it may get.
type PanelWork struct {
	Panel  Panel
	Advice PanelAdvice
	Area   Area
	Around Around
	// Ladders has no two of one name. The first is the advised one, whether it can be worked now or not; "none" is among them.
	Ladders []LadderWork
	// Stronger is the ladder that a trial may still lead up to, within the panel's limit; it is the advised one where a trial can
	// lead no further.
	Stronger string
}

// Area is how much paint a panel has, in m², where it comes in the order of work, and how much of what an owner sees it is.
type Area struct {
	LowM2, LikelyM2, HighM2 float64
	Rank, Seen, Pieces      int
	Reason                  Reason
}

// Around is what a panel takes beside its steps, in minutes.
type Around struct {
	TapeMin, LightMin, InspectMin, RecheckMin, CoolMin float64
	LowPct, HighPct                                    float64
	Reason                                             Reason
}

// LadderWork is one ladder on one panel.
type LadderWork struct {
	Ladder string
	Steps  []StepWork
	// Left is what stays of each mark that polishing can mend and that is graded.
	Left []MarkLeft
}

// StepWork is a step: how to run it, and what it takes beside its path.
type StepWork struct {
	StepAdvice
	Effort Effort
	// Past is how long a section takes by the shop's own record; nil where it does not say.
	Past *SectionTime
}

// Effort is what a step takes beside the machine's path: minutes, and shares in %.
type Effort struct {
	PrimeMin, SwapMin, CleanMin, WipeMin, PadSections float64
	EdgePct, PacePct, LowPct, HighPct                 float64
	Reason                                            Reason
}

// MarkLeft is how far a ladder is said to take one kind of mark down. The owner's goal counts: what may stay is not counted as gone.
type MarkLeft struct {
	Kind             string
	Severity, LeftAt float64
}

// Gone is the grades of severity that go.
func (m MarkLeft) Gone() float64 { return m.Severity - m.LeftAt }

// Grades is the grades of severity that a ladder takes off a panel, over all its marks.
func (l LadderWork) Grades() (sum float64) {
	for _, m := range l.Left {
		sum += m.Gone()
	}
	return sum
}

// Ladder finds one of the panel's ladders.
func (p *PanelWork) Ladder(name string) (LadderWork, bool) {
	at := slices.IndexFunc(p.Ladders, func(l LadderWork) bool { return l.Ladder == name })
	if at < 0 {
		return LadderWork{}, false
	}
	return p.Ladders[at], true
}

// Work asks everything that a plan of an inspected vehicle is reckoned from. Settled are ladders that somebody decided on, by
// panel; each is held against the panel's limit, which nobody can lift.
//
// The error is an [*InputError], with every fault at once, or a [*RulesError].
func (a *Advisor) Work(in Inspection, settled map[string]string) (Work, error) {
	decision, giveBack := a.borrowDecision()
	defer giveBack()
	cases, err := a.study(in, decision)
	if err != nil {
		return Work{}, err
	}
	out := Work{RuleSet: a.set.Hash()}
	advice := make([]PanelAdvice, len(cases))
	var wrong troubles
	for i, c := range cases {
		c.quiet = true
		if advice[i], err = c.advise(); err != nil {
			return Work{}, err
		}
		if ladder, ok := settled[c.panel.ID]; ok {
			c.checkSettled(ladder, &advice[i], &wrong)
		}
	}
	if err := wrong.asError(); err != nil {
		return Work{}, err
	}
	for i, c := range cases {
		panel, err := c.work(advice[i], settled[c.panel.ID])
		if err != nil {
			return Work{}, err
		}
		out.Panels = append(out.Panels, panel)
	}
	out.Groups = groupPanels(cases, advice)
	out.Visit, err = a.visit(in, decision)
	return out, err
}

// checkSettled refuses a ladder that is stronger than the panel allows.
func (c *panelCase) checkSettled(ladder string, advice *PanelAdvice, wrong *troubles) {
	steps := stepsOf(ladder)
	switch {
	case len(steps) == 0:
	case worstEffect(advice.Readiness) == "stop" || worstEffect(advice.Readiness) == "refer":
		*wrong = append(*wrong, Trouble{Field: "ladders." + c.panel.ID, Says: fmt.Sprintf(
			"%s cannot be worked on panel %s: %s", LadderInWords(ladder), c.panel.ID, lowerFirst(advice.Readiness[0].Reason.Because))})
	case strength(steps[0]) > strength(advice.Limit):
		*wrong = append(*wrong, Trouble{Field: "ladders." + c.panel.ID, Says: fmt.Sprintf(
			"%s is stronger than panel %s allows, which is %s: %s",
			LadderInWords(ladder), c.panel.ID, allowance(advice.Limit), lowerFirst(advice.LimitReason.Because))})
	}
}

// work gathers the ladders of one panel.
func (c *panelCase) work(advice PanelAdvice, settled string) (PanelWork, error) {
	out := PanelWork{Panel: *c.panel, Advice: advice, Stronger: advice.Ladder}
	var err error
	if out.Area, err = c.askArea(); err != nil {
		return out, err
	}
	if out.Around, err = c.askAround(); err != nil {
		return out, err
	}
	names := []string{advice.Ladder, noStep}
	if worst := worstEffect(advice.Readiness); worst != "stop" && worst != "refer" {
		sanctioned, err := c.sanctioned(advice.Limit)
		if err != nil {
			return out, err
		}
		out.Stronger = mayLeadTo(advice.Ladder, sanctioned)
		names = append(append(names, sanctioned...), out.Stronger)
	}
	if settled != "" {
		names = append(names, settled)
	}
	for _, name := range names {
		if _, known := out.Ladder(name); known {
			continue
		}
		ladder, err := c.ladderWork(name)
		if err != nil {
			return out, err
		}
		out.Ladders = append(out.Ladders, ladder)
	}
	return out, nil
}

// sanctioned is the ladder that the rules give for each first step up to the limit, the mildest first.
func (c *panelCase) sanctioned(limit string) ([]string, error) {
	var out []string
	for k := 1; k <= strength(limit); k++ {
		first := stepsByStrength[k]
		var said answer
		var err error
		c.sheet.with(func(f *factSheet) { f.word("step.first", first) }, func() { said, err = c.must(c.a.tables.ladder) })
		if err != nil {
			return nil, err
		}
		ladder, _ := said.result.Word("ladder")
		if err := guardLadder(said, ladder, first); err != nil {
			return nil, err
		}
		out = append(out, ladder)
	}
	return out, nil
}

// mayLeadTo is where a trial may lead from a ladder by one more move: with the milder steps after it that it lacks, or else to the
// ladder of the next stronger first step.
func mayLeadTo(ladder string, sanctioned []string) string {
	steps := stepsOf(ladder)
	if len(steps) == 0 {
		return ladder
	}
	first := strength(steps[0])
	if full := ladderOf(stepsByStrength[1 : first+1]); full != ladder {
		return full
	}
	if first < len(sanctioned) {
		return sanctioned[first]
	}
	return ladder
}

// ladderWork asks how each step of a ladder is run and what it takes.
func (c *panelCase) ladderWork(ladder string) (LadderWork, error) {
	out := LadderWork{Ladder: ladder}
	steps := stepsOf(ladder)
	var left *float64
	if c.film != nil {
		left = ptr(float64(c.film.Budget.UsableUm))
	}
	var err error
	c.sheet.with(func(f *factSheet) { f.word("step.first", firstOf(steps)) }, func() {
		for place, step := range steps {
			if left != nil {
				left = ptr(*left - float64(c.removal[step].HighUm))
			}
			work := StepWork{Past: c.pastSection(step)}
			if work.StepAdvice, err = c.adviseStep(step, place+1, place == len(steps)-1, left); err != nil {
				return
			}
			if work.Effort, err = c.askEffort(step, place+1, place == len(steps)-1); err != nil {
				return
			}
			out.Steps = append(out.Steps, work)
		}
	})
	if err != nil {
		return out, err
	}
	out.Left, err = c.marksLeft(firstOf(steps))
	return out, err
}

func firstOf(steps []string) string {
	if len(steps) == 0 {
		return noStep
	}
	return steps[0]
}
