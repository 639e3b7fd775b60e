package course

import (
	"slices"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/drift"
)

// Course is the readings on one scale while a step was carried over one panel or several, beside what a trial promised.
type Course struct {
	// Panel and Trial are where the promise comes from: a trial whose verdict has proven the ladder.
	Panel string
	Trial int64
	Step  string
	Scale Scale
	// Promised is the mean over the trial's spots afterwards.
	Promised float64
	// Points are the spots read during the work, in order.
	Points []Point
	// Chart has a point for each of Points. Its Sigma is zero, and it has no limits, while there are too few readings.
	Chart drift.Chart
	// ThisPad is the place of the first point since a fresh or cleaned pad was put on; the number of points if there is none yet.
	ThisPad int
	// SectionsOnPad counts sections worked with the step since a fresh or cleaned pad was put on. Nil: not counted.
	SectionsOnPad *int
}

// Point is one spot, read once during the work.
type Point struct {
	Panel, Spot string
	// Sequence is that of the readings.
	Sequence int64
	// Value is the mean of its readings.
	Value float64
}

// Scale is what was read: gloss at an angle or, with angle 0, haze.
type Scale struct{ Angle int }

// Unit is the unit of the scale.
func (s Scale) Unit() string {
	if s.Angle == 0 {
		return "HU"
	}
	return "GU"
}

// Worse says whether a change to one side is for the worse: less gloss, more haze.
func (s Scale) Worse(low bool) bool { return low == (s.Angle != 0) }

// of are a spot's readings on the scale.
func (s Scale) of(spot history.GlossSpot) []float64 {
	switch s.Angle {
	case 20:
		return spot.At20GU
	case 60:
		return spot.At60GU
	case 85:
		return spot.At85GU
	}
	return spot.HazeHU
}

var scales = [...]Scale{{20}, {60}, {85}, {0}}

// fewestRanges is how many times one reading has to follow another before their scatter is taken for known: common practice, no
// source. The handbook's own example has nine.
const fewestRanges = 4

// smallestStep is the smallest difference that meters show, in GU and HU. Readings that never differ scatter by less than it and
// not by nothing. Common practice, no source.
const smallestStep = 0.1

// Of gives the courses of a job, in the order of the trials that promised, for every scale that was read during the work. After
// gives the spots of a trial as they read afterwards.
//
// A panel with a proven ladder of its own is held to its own trials. Another is held to those of the latest panel tried that has
// the same ladder by plan, and paint that is not known to differ: that is what carrying a ladder over means.
func Of(job *history.Job, after func(history.TrialMade) []history.GlossSpot) []Course {
	var out []Course
	for _, promise := range promises(job) {
		spots := after(promise.trial)
		for _, scale := range scales {
			if c, read := courseOf(job, promise, scale, spots); read {
				out = append(out, c)
			}
		}
	}
	return out
}

func courseOf(job *history.Job, promise promise, scale Scale, spots []history.GlossSpot) (Course, bool) {
	c := Course{Panel: promise.panel.ID, Trial: promise.trial.Sequence, Step: promise.trial.Step, Scale: scale}
	var reached []float64
	for _, spot := range spots {
		if values := scale.of(spot); len(values) > 0 {
			reached = append(reached, mean(values))
		}
	}
	c.Points = points(promise, scale)
	if len(reached) == 0 || len(c.Points) == 0 {
		return Course{}, false
	}
	c.Promised = mean(reached)
	c.SectionsOnPad = sectionsOnPad(job, c.Step)
	c.chart(reached, freshPads(job, c.Step))
	return c, true
}

// chart sets limits once enough readings tell how far single ones scatter: those that promised and those during the work, each
// against the one before it on its panel. A drift hardly widens that.
func (c *Course) chart(reached []float64, fresh []int64) {
	runs, values := [][]float64{reached}, make([]float64, len(c.Points))
	ranges := len(reached) - 1
	for i, p := range c.Points {
		values[i] = p.Value
		if i == 0 || p.Panel != c.Points[i-1].Panel {
			runs = append(runs, nil)
		} else {
			ranges++
		}
		runs[len(runs)-1] = append(runs[len(runs)-1], p.Value)
	}
	pads := c.pads(fresh)
	c.ThisPad = pads[len(pads)-1]
	c.Chart = drift.Chart{Centre: c.Promised, Values: values}
	if ranges < fewestRanges {
		return
	}
	sigma, err := drift.SigmaOf(runs...)
	if err != nil || sigma < smallestStep {
		sigma = smallestStep
	}
	c.Chart.Sigma = sigma
	// Each pad is watched for itself: what the last one left says nothing of a fresh one.
	for i, from := range pads {
		to := len(values)
		if i+1 < len(pads) {
			to = pads[i+1]
		}
		chart, err := drift.Watch(c.Promised, sigma, values[from:to])
		if err != nil {
			continue // readings are finite, or they were not recorded
		}
		for _, s := range chart.Signals {
			s.At += from
			c.Chart.Signals = append(c.Chart.Signals, s)
		}
	}
}

// pads are the places of the first point of each pad.
func (c *Course) pads(fresh []int64) []int {
	out := []int{0}
	for _, at := range fresh {
		first := slices.IndexFunc(c.Points, func(p Point) bool { return p.Sequence > at })
		if first < 0 {
			first = len(c.Points)
		}
		if first > out[len(out)-1] {
			out = append(out, first)
		}
	}
	return out
}

// promise is a trial that counts, and the panels that are held to it.
type promise struct {
	panel *history.Panel
	trial history.TrialMade
	held  []*history.Panel
}

func promises(job *history.Job) []promise {
	var out []promise
	for _, p := range job.Panels {
		if !proven(p) {
			continue
		}
		for _, step := range history.Steps(p.Verdict.Ladder) {
			// Of several trials of a step the last is the one that was kept.
			i := slices.IndexFunc(p.Trials, func(t history.TrialMade) bool { return t.Step == step })
			for k := i + 1; i >= 0 && k < len(p.Trials); k++ {
				if p.Trials[k].Step == step {
					i = k
				}
			}
			if i >= 0 {
				out = append(out, promise{panel: p, trial: p.Trials[i], held: heldTo(job, p)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b promise) int { return int(a.trial.Sequence - b.trial.Sequence) })
	return out
}

func proven(p *history.Panel) bool { return p.Verdict != nil && p.Verdict.Proven }

// heldTo are the panels that go by the trials of one: itself, and those that are carried on by it.
func heldTo(job *history.Job, tried *history.Panel) []*history.Panel {
	held := []*history.Panel{tried}
	for _, p := range job.Panels {
		if p != tried && !proven(p) && carriedBy(job, p) == tried {
			held = append(held, p)
		}
	}
	return held
}

// carriedBy is the panel tried last whose proven ladder another has by plan.
func carriedBy(job *history.Job, p *history.Panel) *history.Panel {
	var best *history.Panel
	for _, tried := range job.Panels {
		if !proven(tried) || p.Ladder == "" || tried.Verdict.Ladder != p.Ladder || differ(tried.Found.Softness, p.Found.Softness) || differ(tried.Found.System, p.Found.System) {
			continue
		}
		if best == nil || tried.Verdict.Sequence > best.Verdict.Sequence {
			best = tried
		}
	}
	return best
}

// differ is true for words that are both known and not the same.
func differ(a, b string) bool { return a != "" && b != "" && a != b }

// points are the spots read while the promise's step was carried over the panels held to it, in the order of reading. Readings
// that name no step are of the ladder's last.
func points(promise promise, scale Scale) []Point {
	var out []Point
	for _, p := range promise.held {
		for _, r := range p.During {
			if stepOf(r, p) != promise.trial.Step {
				continue
			}
			for _, spot := range r.Gloss {
				if values := scale.of(spot); len(values) > 0 {
					out = append(out, Point{Panel: p.ID, Spot: spot.Spot, Sequence: r.Sequence, Value: mean(values)})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Point) int { return int(a.Sequence - b.Sequence) })
	return out
}

func stepOf(r history.ReadingsTaken, p *history.Panel) string {
	if r.Step != "" || len(p.Steps) == 0 {
		return r.Step
	}
	return p.Steps[len(p.Steps)-1].Step
}

func mean(values []float64) float64 {
	var sum float64
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
