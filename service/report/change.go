package report

import (
	"slices"

	"github.com/glossladder/glossladder/service/gloss"
	"github.com/glossladder/glossladder/service/history"
)

// Change is gloss or haze before and after, over the spots that were read both times.
type Change struct {
	Scale gloss.Scale
	// Before and After are the means over the spots.
	Before, After Value
	// Gain is after less before.
	Gain  Value
	Spots int
	// TestSpot is true where only a test spot was read both times, and false where the finished panel was.
	TestSpot bool
	// CeilingGU is the most that the clear coat can show. Zero: not known.
	CeilingGU float64
}

// Value is a figure with the interval that holds it; where Sure is false the readings give none.
type Value struct {
	Mean, Low, High float64
	Sure            bool
}

// Reading is a figure on a scale.
type Reading struct {
	Scale gloss.Scale
	Value
}

// readings are the readings of each spot on every scale.
type readings map[string]history.GlossSpot

func (r readings) add(spots []history.GlossSpot) {
	for _, s := range spots {
		was := r[s.Spot]
		was.Spot = s.Spot
		for _, each := range []struct {
			into *[]float64
			from []float64
		}{{&was.At20GU, s.At20GU}, {&was.At60GU, s.At60GU}, {&was.At85GU, s.At85GU}, {&was.HazeHU, s.HazeHU}} {
			if len(each.from) > 0 {
				*each.into = each.from
			}
		}
		r[s.Spot] = was
	}
}

// changes reckons gloss and haze before and after: of the finished panel where it was read, of the last accepted test spot
// where it was not.
func (m *maker) changes(p *Panel, start *history.Panel, seen *Inspected) {
	found := readings{}
	found.add(start.Found.Gloss)
	for _, r := range start.Before {
		found.add(r.Gloss)
	}
	after := readings{}
	for _, r := range m.after(p.Found.ID) {
		after.add(r.Gloss)
	}
	c := comparison{confidence: m.confidence() / 100, stepGU: seen.GlossStepGU, stepHU: seen.HazeStepHU}
	if p.Advice != nil && p.Advice.Gloss != nil {
		c.angle = p.Advice.Gloss.Angle
		defer func() { ceiling(p.Gloss, p.Advice.Gloss) }()
	}
	p.GlossFound = c.found(found)
	p.Gloss, p.Haze = c.gloss(found, after), c.haze(found, after)
	trial := p.accepted()
	if trial == nil || p.Gloss != nil && p.Haze != nil {
		return
	}
	own, reached, err := m.given.Documents.Trial(trial.Document)
	if err != nil {
		return // the verdict on it stands without
	}
	was, is := readings{}, readings{}
	was.add(start.Found.Gloss)
	was.add(own)
	is.add(reached)
	if p.Gloss == nil {
		p.Gloss = onSpot(c.gloss(was, is))
	}
	if p.Haze == nil {
		p.Haze = onSpot(c.haze(was, is))
	}
}

// onSpot marks a change as that of a test spot.
func onSpot(c *Change) *Change {
	if c != nil {
		c.TestSpot = true
	}
	return c
}

func ceiling(change *Change, said *GlossAdvice) {
	if degrees := map[gloss.Scale]int{gloss.Gloss20: 20, gloss.Gloss60: 60, gloss.Gloss85: 85}; change != nil && degrees[change.Scale] == said.Angle {
		change.CeilingGU = said.CeilingGU
	}
}

// accepted is the last test spot that was accepted; nil if none was.
func (p *Panel) accepted() *Trial {
	for i := range slices.Backward(p.Trials) {
		if v := p.Trials[i].Verdict; v != nil && v.Verdict == "accept" {
			return &p.Trials[i]
		}
	}
	return nil
}

// comparison is how readings before and after are compared.
type comparison struct {
	confidence     float64
	stepGU, stepHU float64
	angle          int
}

// scales are those of gloss, that of the advice first.
func (c comparison) scales() (out []gloss.Scale) {
	at := map[int]gloss.Scale{20: gloss.Gloss20, 60: gloss.Gloss60, 85: gloss.Gloss85}
	for _, angle := range []int{c.angle, 20, 60, 85} {
		if scale, ok := at[angle]; ok {
			out = append(out, scale)
		}
	}
	return out
}

// gloss compares at the angle of the advice, or at the first that was read both times.
func (c comparison) gloss(before, after readings) *Change {
	for _, scale := range c.scales() {
		if out := c.compare(pair(scale, c.stepGU, before, after)); out != nil {
			return out
		}
	}
	return nil
}

// found is what was read before the work; nil if gloss was not read.
func (c comparison) found(before readings) *Reading {
	for _, scale := range c.scales() {
		if all := pair(scale, c.stepGU, before, before); len(all.Before) > 0 {
			return &Reading{Scale: scale, Value: c.value(all.Meter, all.Before)}
		}
	}
	return nil
}

// haze compares the meter's own haze, or the haze index where it shows none.
func (c comparison) haze(before, after readings) *Change {
	if out := c.compare(pair(gloss.Haze, c.stepHU, before, after)); out != nil {
		return out
	}
	at60, at20 := pair(gloss.Gloss60, c.stepGU, before, after), pair(gloss.Gloss20, c.stepGU, before, after)
	gain, err := gloss.HazeIndexGain(at60, at20, c.confidence)
	if err != nil {
		return nil
	}
	was, ok := c.index(at60.Meter, at20.Meter, at60.Before, at20.Before)
	is, ok2 := c.index(at60.Meter, at20.Meter, at60.After, at20.After)
	if !ok || !ok2 {
		return nil
	}
	return &Change{Scale: gloss.HazeIndex, Before: was, After: is, Gain: Value{gain.Mean, gain.Low, gain.High, true}, Spots: len(gain.Spots)}
}

func (c comparison) index(meter60, meter20 gloss.Meter, at60, at20 []gloss.Spot) (Value, bool) {
	panel60, err := gloss.Measure(meter60, at60, c.confidence)
	if err != nil {
		return Value{}, false
	}
	panel20, err := gloss.Measure(meter20, at20, c.confidence)
	if err != nil {
		return Value{}, false
	}
	index, err := gloss.HazeIndexOf(panel60, panel20)
	if err != nil {
		return Value{}, false
	}
	return Value{index.GU, index.GU - index.Uncertainty.Expanded, index.GU + index.Uncertainty.Expanded, true}, true
}

// pair keeps the spots that were read on a scale both times.
//
// The meter's stated accuracy is left out: the same meter reads the same amount wrong before and after, and the two are there to
// be compared with each other.
func pair(scale gloss.Scale, step float64, before, after readings) gloss.BeforeAfter {
	out := gloss.BeforeAfter{Meter: gloss.Meter{Scale: scale, Resolution: step}}
	for _, name := range sortedNames(before) {
		was, is := on(scale, before[name]), on(scale, after[name])
		if len(was) > 0 && len(is) > 0 {
			out.Before = append(out.Before, gloss.Spot{Name: name, Readings: was})
			out.After = append(out.After, gloss.Spot{Name: name, Readings: is})
		}
	}
	return out
}

func sortedNames(r readings) []string {
	var out []string
	for name := range r {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

func on(scale gloss.Scale, s history.GlossSpot) []float64 {
	switch scale {
	case gloss.Gloss20:
		return s.At20GU
	case gloss.Gloss60:
		return s.At60GU
	case gloss.Gloss85:
		return s.At85GU
	case gloss.Haze:
		return s.HazeHU
	case gloss.HazeIndex:
	}
	return nil
}

// compare gives nil where no spot was read both times.
func (c comparison) compare(read gloss.BeforeAfter) *Change {
	if len(read.Before) == 0 {
		return nil
	}
	out := &Change{
		Scale: read.Meter.Scale, Spots: len(read.Before), Before: c.value(read.Meter, read.Before), After: c.value(read.Meter, read.After),
	}
	out.Gain = exactly(out.After.Mean - out.Before.Mean)
	if gain, err := read.Gain(c.confidence); err == nil {
		out.Gain = Value{gain.Mean, gain.Low, gain.High, true}
	}
	return out
}

// value is the mean over spots; without an interval where the readings give none.
func (c comparison) value(meter gloss.Meter, spots []gloss.Spot) Value {
	if panel, err := gloss.Measure(meter, spots, c.confidence); err == nil {
		return Value{panel.Mean, panel.Mean - panel.Uncertainty.Expanded, panel.Mean + panel.Uncertainty.Expanded, true}
	}
	var sum float64
	for _, s := range spots {
		var own float64
		for _, v := range s.Readings {
			own += v
		}
		sum += own / float64(len(s.Readings))
	}
	return exactly(sum / float64(len(spots)))
}

func exactly(v float64) Value { return Value{Mean: v, Low: v, High: v} }
