package workplan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
)

// Fit is the best use of hours or of a price that are fixed.
type Fit struct {
	Plan      Plan
	Panels    []FitPanel
	ResultPct float64
	// MostPct is a result that no choice within the limit passes: ResultPct itself, unless there are too many choices to look at all.
	MostPct float64
	Full    Plan // with every ladder as it would be without the limit
	Curve   []FitPoint
}

// FitPanel is what one panel gets and what it would get without the limit.
type FitPanel struct {
	Panel, Ladder, Full string
	Seen                int
	Grades, FullGrades  float64
	SavesMin            float64
	Leaves              string
}

// FitPoint is one choice of ladders that no other beats in both minutes and result. Minutes are an upper bound: pads are counted a
// little too high in it.
type FitPoint struct{ WorkMin, ResultPct float64 }

// DearError says that the price pays for no choice. Least is what the cheapest costs.
type DearError struct{ Price, Least string }

func (e *DearError) Error() string {
	return fmt.Sprintf("%s is too little: the least that these panels cost is %s", e.Price, e.Least)
}

// fitting is a job under a limit: the choices of every panel, and what is spent whatever is chosen.
type fitting struct {
	job        *Job
	full, none Plan
	fixedMin   float64
	candidates []plan.Candidate
	open       plan.Open
	setup      plan.Setup
	grid       float64 // steps to a minute: the finer, the less is lost by rounding up
	most       int     // the worth of all full ladders
}

// InHours finds the ladders with the greatest result that fit the hours, in minutes of one person; of equals those that take less
// time, then less film. It is the exact optimum by the minutes that a plan comes to, with pads and test spots that panels share; see
// [plan.Pool.Best]. Errors: those of [Make], or a [*plan.NoRoomError] in minutes of the whole job.
func InHours(job *Job, minutes float64) (Fit, error) {
	f, err := newFitting(job)
	if err != nil {
		return Fit{}, err
	}
	pool := f.open.ByMinutes()
	fit, found, err := f.best(pool, plan.Micros(minutes+digits))
	if err != nil || found {
		return fit, err
	}
	least, err := pool.Least()
	if err != nil {
		return Fit{}, err
	}
	return Fit{}, &plan.NoRoomError{Minutes: int(minutes), Least: int((least + plan.Micros(1) - 2) / plan.Micros(1))}
}

// ForPrice finds the ladders with the greatest result whose likely total is within the price; of equals those that cost less, then
// those that take less film. It is the exact optimum by the money that a plan comes to, each amount rounded as there; see
// [plan.Pool.Best]. Errors: those of [Make], or a [*DearError].
func ForPrice(job *Job, price catalogue.Money) (Fit, error) {
	f, err := newFitting(job)
	if err != nil {
		return Fit{}, err
	}
	pool := f.open.ByPrice()
	fit, found, err := f.best(pool, plan.Millionths(price))
	if err != nil || found {
		return fit, err
	}
	least, err := pool.Least()
	if err != nil {
		return Fit{}, err
	}
	in := f.full.Cost.Currency
	return Fit{}, &DearError{Price: in.Format(price), Least: in.Format(catalogue.Money(least / plan.Millionths(1)))}
}

// best asks a pool, and tells the answer beside the curve.
func (f *fitting) best(pool *plan.Pool, limit int64) (Fit, bool, error) {
	best, found, err := pool.Best(limit)
	if err != nil || !found {
		return Fit{}, false, err
	}
	made, err := f.make(best.Picks)
	if err != nil {
		return Fit{}, false, err
	}
	curve, err := f.curve()
	if err != nil {
		return Fit{}, false, err
	}
	return f.answer(made, best, curve), true, nil
}

// workMin is the minutes of the whole job at a point.
func (f *fitting) workMin(point plan.Fit) float64 { return f.fixedMin + float64(point.Minutes)/f.grid }

func newFitting(job *Job) (*fitting, error) {
	f := &fitting{job: job, setup: plan.Setup{}}
	var err error
	if f.full, err = job.make(job.ladderOf); err != nil {
		return nil, err
	}
	if f.none, err = job.make(func(*advisor.PanelWork) string { return "none" }); err != nil {
		return nil, err
	}
	f.open = plan.Open{Whole: whole(job.Work.Visit, 0, newTrail()), SpotMin: plan.Exactly(job.Work.Visit.TrialMin), Shop: job.Shop}
	f.open.Make = func(picks []int) (plan.Plan, error) {
		made, err := f.make(picks)
		return made.Plan, err
	}
	f.fixedMin, f.grid = f.none.WorkMin.Likely, gridFor(f.full.WorkMin.Likely)
	by := f.keys()
	if !by.groups {
		f.fixedMin += f.full.line("test spots")
	}
	for i := range job.Work.Panels {
		candidate, err := f.candidate(&job.Work.Panels[i], by)
		if err != nil {
			return nil, err
		}
		f.candidates = append(f.candidates, candidate)
		f.most += job.worth(&job.Work.Panels[i], job.ladderOf(&job.Work.Panels[i]))
	}
	return f, nil
}

// gridFor is as many steps to a minute as the reckoning has room for, four at most.
func gridFor(minutes float64) float64 {
	const finest, room = 4, 2 // strong ladders on every panel may take twice the time of the full ones
	return max(1, min(finest, math.Floor(plan.MostMinutes/(room*max(minutes, 1)))))
}

// digits keeps a whole number of minutes from being rounded up for the last digits of a sum.
const digits = 1e-6

// line is the likely minutes of a line of the plan.
func (p *Plan) line(what string) float64 {
	for _, line := range p.Lines {
		if line.What == what {
			return line.Min.Likely
		}
	}
	return 0
}

// worth is a panel's grades that go, in hundredths, each panel weighted by what an owner sees of it. A ladder that somebody decided
// on and that may still be left out has a hundredth on top: it is not dropped where there is time only because the marks might stay.
func (j *Job) worth(p *advisor.PanelWork, ladder string) int {
	found, _ := p.Ladder(ladder)
	hundredths := 100 * found.Grades()
	if len(found.Steps) > 0 && j.AtMost[p.Panel.ID] && j.Settled[p.Panel.ID] == ladder {
		hundredths++
	}
	return int(math.Round(float64(p.Area.Seen) * hundredths))
}

// keys is what is paid once for the vehicle, whatever number of panels gets it: each pair of pad and liquid of a step, and the test
// spot of each group. The reckoning looks at every set of them, so where there are too many, steps stand for their pairs, and then
// test spots count as worked in any case.
type keys struct {
	pad    func(advisor.StepWork) string
	groups bool
}

func (f *fitting) keys() keys {
	pairs, steps := map[string]bool{}, map[string]bool{}
	for i := range f.job.Work.Panels {
		for _, ladder := range f.job.Work.Panels[i].Ladders {
			for _, s := range ladder.Steps {
				pairs[pairOf(s)], steps[s.Step] = true, true
			}
		}
	}
	byStep := func(s advisor.StepWork) string { return s.Step }
	switch groups := len(f.job.Work.Groups); {
	case len(pairs)+groups <= plan.MostSteps:
		return keys{pairOf, true}
	case len(steps)+groups <= plan.MostSteps:
		return keys{byStep, true}
	case len(pairs) <= plan.MostSteps:
		return keys{pairOf, false}
	}
	return keys{byStep, false}
}

// spotOf is the key of the test spot that a panel's ladder has to be proved on; "" when none is left to work.
func (f *fitting) spotOf(panel string) string {
	for _, group := range f.job.Work.Groups {
		if !slices.Contains(group.Panels, panel) {
			continue
		}
		if slices.ContainsFunc(group.Panels, func(id string) bool { return f.job.Proven[id] }) {
			return ""
		}
		return "test spot " + group.TestFirst
	}
	return ""
}

func pairOf(s advisor.StepWork) string {
	return s.Step + " " + s.Combination.PadID + " " + s.Combination.LiquidID
}

// candidate is everything that a panel may get: what was settled, or any ladder that the rules give up to its limit, or none.
func (f *fitting) candidate(p *advisor.PanelWork, by keys) (plan.Candidate, error) {
	out, open := plan.Candidate{Panel: p.Panel.ID}, plan.OpenPanel{Spot: f.spotOf(p.Panel.ID)}
	for _, ladder := range p.Ladders {
		if !f.job.mayGet(p, ladder) {
			continue
		}
		panel, err := f.job.panel(p, ladder.Ladder, newTrail())
		if err != nil {
			return out, err
		}
		choice, err := f.choice(p, panel, ladder, by)
		if err != nil {
			return out, err
		}
		out.Choices = append(out.Choices, choice)
		open.Ways = append(open.Ways, plan.OpenWay{Panel: panel, Worth: choice.Worth})
	}
	f.open.Panels = append(f.open.Panels, open)
	return out, nil
}

// mayGet says whether a panel may get a ladder: the one that was settled, or less where that is the most, or any.
func (j *Job) mayGet(p *advisor.PanelWork, ladder advisor.LadderWork) bool {
	settled, ok := j.Settled[p.Panel.ID]
	if !ok || settled == ladder.Ladder {
		return true
	}
	most, _ := p.Ladder(settled)
	return j.AtMost[p.Panel.ID] && takesUm(ladder) <= takesUm(most)
}

// takesUm is what the steps of a ladder are likely to take off, in µm: the milder of two ladders takes less.
func takesUm(l advisor.LadderWork) (um float64) {
	for _, s := range l.Steps {
		um += float64(s.Removal.LikelyUm)
	}
	return um
}

// choice is what a ladder costs on one panel. Pads are counted by the section, and twice for each step: what a plan takes for
// pads then never comes to more.
func (f *fitting) choice(p *advisor.PanelWork, panel plan.Panel, ladder advisor.LadderWork, by keys) (plan.Choice, error) {
	one := []plan.Panel{panel}
	made, err := plan.Make(plan.Vehicle{Panels: one, Steps: plan.Handled(one), Shop: f.job.Shop, Crew: f.job.Crew})
	if err != nil {
		return plan.Choice{}, err
	}
	work := &made.Panels[0]
	minutes := work.Minutes.Likely - panel.InspectMin.Likely
	out := plan.Choice{Ladder: ladder.Ladder, Worth: f.job.worth(p, ladder.Ladder), TakesNm: int(math.Round(1000 * work.TakesUm.High))}
	for i, s := range panel.Steps {
		how, each := s.How, by.pad(ladder.Steps[i])
		minutes += float64(work.Sections[i]) * (how.PrimeMin.Likely + how.SwapMin.Likely) / how.PadSections
		once := int(math.Ceil((2*how.PrimeMin.Likely+how.SwapMin.Likely)*f.grid - digits))
		f.setup[each] = max(f.setup[each], once)
		out.Steps = append(out.Steps, each)
	}
	if spot := f.spotOf(p.Panel.ID); by.groups && spot != "" && len(panel.Steps) > 0 {
		f.setup[spot] = int(math.Ceil(f.job.Work.Visit.TrialMin*f.grid - digits))
		out.Steps = append(out.Steps, spot)
	}
	out.Minutes = int(math.Ceil(max(0, minutes)*f.grid - digits))
	return out, nil
}

// curve is the trade-off over all minutes that may be spent.
func (f *fitting) curve() ([]plan.Fit, error) {
	all := 0
	for _, c := range f.candidates {
		most := 0
		for _, choice := range c.Choices {
			most = max(most, choice.Minutes)
		}
		all += most
	}
	for _, once := range f.setup {
		all += once
	}
	return plan.Tradeoff(f.candidates, f.setup, min(all, plan.MostMinutes))
}

// ladder is the ladder that a pick gives a panel.
func (f *fitting) ladder(picks []int, panel int) string {
	return f.candidates[panel].Choices[picks[panel]].Ladder
}

func (f *fitting) make(picks []int) (Plan, error) {
	return f.job.make(func(p *advisor.PanelWork) string {
		at := slices.IndexFunc(f.candidates, func(c plan.Candidate) bool { return c.Panel == p.Panel.ID })
		return f.ladder(picks, at)
	})
}

func (f *fitting) answer(made Plan, best plan.Pooled, curve []plan.Fit) Fit {
	out := Fit{Plan: made, Full: f.full, ResultPct: f.share(best.Worth), MostPct: f.share(best.Most)}
	for _, point := range curve {
		out.Curve = append(out.Curve, FitPoint{WorkMin: f.workMin(point), ResultPct: f.share(point.Worth)})
	}
	for i := range f.job.Work.Panels {
		p := &f.job.Work.Panels[i]
		full := f.job.ladderOf(p)
		out.Panels = append(out.Panels, fitPanel(p, f.ladder(best.Picks, i), full))
		at, n := made.minutesOf(p.Panel.ID), f.full.minutesOf(p.Panel.ID)
		out.Panels[i].SavesMin = max(0, n-at)
	}
	return out
}

func (p *Plan) minutesOf(panel string) float64 {
	for i := range p.Panels {
		if p.Panels[i].Panel.ID == panel {
			return p.Panels[i].Minutes.Likely
		}
	}
	return 0
}

// share is a worth in % of that of the full ladders; all of it where they bring nothing.
func (f *fitting) share(worth int) float64 {
	if f.most == 0 {
		return 100
	}
	return 100 * float64(worth) / float64(f.most)
}

func fitPanel(p *advisor.PanelWork, ladder, full string) FitPanel {
	got, _ := p.Ladder(ladder)
	whole, _ := p.Ladder(full)
	out := FitPanel{Panel: p.Panel.ID, Ladder: ladder, Full: full, Seen: p.Area.Seen, Grades: got.Grades(), FullGrades: whole.Grades()}
	var leaves []string
	for i, mark := range got.Left {
		if i < len(whole.Left) && mark.LeftAt > whole.Left[i].LeftAt {
			leaves = append(leaves, fmt.Sprintf("%s %v stay near %v, not %v",
				strings.ReplaceAll(mark.Kind, "-", " "), mark.Severity, mark.LeftAt, whole.Left[i].LeftAt))
		}
	}
	out.Leaves = strings.Join(leaves, "; ")
	return out
}
