package advisor

import (
	"errors"
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/service/gloss"
)

// before is what a trial is compared with: its own readings, or the panel's from the inspection.
func (b *bench) before(trial *Trial) []GlossSpot {
	if len(trial.Before) > 0 {
		return trial.Before
	}
	return b.c.panel.Gloss
}

// glossChange compares gloss before and after at the angle that ISO 2813 picks; nil when it was not read twice.
func (b *bench) glossChange(trial *Trial) *Change {
	before := b.before(trial)
	at := map[gloss.Scale]float64{}
	for _, scale := range []gloss.Scale{gloss.Gloss60, gloss.Gloss20, gloss.Gloss85} {
		if mean, ok := meanOn(scale, before); ok && len(spotsOn(scale, trial.After)) > 0 {
			at[scale] = mean
		}
	}
	scale, ok := judgingScale(at)
	if !ok {
		return nil
	}
	out := b.compare(scale, before, trial.After)
	out.Worth = b.c.policy.gainWorthGU
	out.judgeGain()
	return out
}

// hazeChange compares haze: the meter's own where it was read twice, the index of 60° less 20° otherwise.
func (b *bench) hazeChange(trial *Trial) *Change {
	before := b.before(trial)
	if len(spotsOn(gloss.Haze, before)) > 0 && len(spotsOn(gloss.Haze, trial.After)) > 0 {
		out := b.compare(gloss.Haze, before, trial.After)
		out.Worth = b.c.policy.hazeWorthHU
		out.judgeHaze()
		return out
	}
	at60, at20 := b.pair(gloss.Gloss60, before, trial.After), b.pair(gloss.Gloss20, before, trial.After)
	gain, err := gloss.HazeIndexGain(at60, at20, b.c.policy.confidence())
	if err != nil {
		return nil // not both angles, not twice, or too dull for the index
	}
	out := &Change{Scale: gloss.HazeIndex, Gain: gain, Worth: b.c.policy.hazeWorthIndex, perSpot: fewestPerSpot(at60.After)}
	out.Before = meanOf(at60.Before) - meanOf(at20.Before)
	out.After = meanOf(at60.After) - meanOf(at20.After)
	out.judgeHaze()
	return out
}

func (b *bench) pair(scale gloss.Scale, before, after []GlossSpot) gloss.BeforeAfter {
	return gloss.BeforeAfter{Meter: b.c.in.GlossMeter.on(scale), Before: spotsOn(scale, before), After: spotsOn(scale, after)}
}

func (b *bench) compare(scale gloss.Scale, before, after []GlossSpot) *Change {
	pair := b.pair(scale, before, after)
	out := &Change{Scale: scale, Before: meanOf(pair.Before), After: meanOf(pair.After), perSpot: fewestPerSpot(pair.After)}
	gain, err := pair.Gain(b.c.policy.confidence())
	if err != nil {
		out.Gain = gloss.Gain{Scale: scale, Mean: out.After - out.Before}
		out.Judgement, out.Note = "not-conclusive", tooFewNote(err)
		out.ReadingsNeeded = fewestReadings
		return out
	}
	out.Gain = gain
	return out
}

// fewestReadings is what a spot needs before it says anything about itself: re-seat the meter, three readings at least.
// Common practice, no source.
const fewestReadings = 3

func tooFewNote(err error) string {
	var few *gloss.CountError
	if errors.As(err, &few) {
		return fmt.Sprintf("one reading says nothing of its own spread; take at least %d at each spot, lifting the meter between them", fewestReadings)
	}
	return err.Error()
}

// judgeGain holds a gloss gain against the smallest one worth having.
func (c *Change) judgeGain() {
	if c.Judgement != "" {
		return
	}
	verdict, err := c.Gain.Judge(c.Worth)
	if err != nil {
		c.Judgement, c.Note = "not-conclusive", err.Error()
		return
	}
	switch verdict {
	case gloss.Worthwhile:
		c.Judgement = "worthwhile"
	case gloss.TooSmall:
		c.Judgement = "too-small"
	case gloss.Loss:
		c.Judgement = "loss"
	default:
		c.Judgement = "not-conclusive"
		c.askForMore(c.Worth)
	}
}

// judgeHaze calls a rise worse when it is real and large enough, and the same when no rise that matters is left in the
// interval.
func (c *Change) judgeHaze() {
	if c.Judgement != "" {
		return
	}
	switch g := c.Gain; {
	case g.Low > 0 && g.Mean >= c.Worth:
		c.Judgement = "worse"
	case g.High < 0 && g.Mean <= -c.Worth:
		c.Judgement = "better"
	case g.High < c.Worth:
		c.Judgement = "same"
	default:
		c.Judgement = "not-conclusive"
		c.askForMore(c.Worth)
	}
}

// askForMore says how many readings or spots would settle it, the fewest first.
func (c *Change) askForMore(limit float64) {
	outlook, err := c.Gain.Outlook(limit, thinkableReadings)
	if err != nil || outlook.Settled {
		return
	}
	if len(outlook.Remedies) == 0 {
		c.Note = outlook.Obstacle.String() + "; " + findTheCause
		return
	}
	remedy := slices.MinFunc(outlook.Remedies, func(a, b gloss.Remedy) int { return a.More - b.More })
	c.Note = fmt.Sprintf("%d %s would settle it if readings go on as they did", remedy.More, remedy.Kind)
	if remedy.More > mostReadings {
		c.Note += ", and that is more than is worth taking; " + findTheCause
	}
	if remedy.Kind == gloss.MoreSpots {
		c.SpotsNeeded = len(c.Gain.Spots) + remedy.More
		return
	}
	c.ReadingsNeeded = c.perSpot + remedy.More
}

const (
	// mostReadings is the largest number of further readings or spots worth asking a technician for.
	// Common practice, no source.
	mostReadings = 30
	// thinkableReadings is how far the number needed is worked out, to say how hopeless it is.
	thinkableReadings = 1000

	findTheCause = "find out why the spots differ (seat of the meter, oils, an uneven section) and work the spot again"
)

func fewestPerSpot(spots []gloss.Spot) int {
	fewest := 0
	for i, spot := range spots {
		if i == 0 || len(spot.Readings) < fewest {
			fewest = len(spot.Readings)
		}
	}
	return fewest
}

func meanOf(spots []gloss.Spot) float64 {
	if len(spots) == 0 {
		return 0
	}
	sum := 0.0
	for _, spot := range spots {
		within := 0.0
		for _, r := range spot.Readings {
			within += r
		}
		sum += within / float64(len(spot.Readings))
	}
	return sum / float64(len(spots))
}

// headroomLeft is how far the after-reading lies under the optical ceiling.
func (b *bench) headroomLeft(g *Change) (float64, bool) {
	ceiling, err := gloss.CeilingGU(g.Scale, b.c.policy.refractiveIndex)
	return ceiling - g.After, err == nil
}
