package advisor

import "slices"

// What settings may be in the contract.
const (
	mostPasses  = 20
	slowestArm  = 0.5
	mostDrops   = 12
	fewestDrops = 0
)

// oneChange is how far one change goes in the next trial: passes, cm/s, drops.
type oneChange struct{ passes, armCmS, drops float64 }

// How far it goes where the policy leaves it out, as folders do that are older than these fields: the numbers of the contract, which the
// shipped policy has too.
const (
	usualPasses = 2
	usualArmCmS = 1
	usualDrops  = 1
)

var (
	padsMildestFirst = []string{"finishing-foam", "polishing-foam", "cutting-foam", "microfibre", "wool"}
	speedsLowFirst   = []string{"low", "mid", "high"}
)

// asTried is how the trials in a row with this step were run: as recommended, with each change made on the way, and with what
// the technician says of the last.
func (b *bench) asTried(advice StepAdvice, i int) StepAdvice {
	for k := i - b.inRow(i) + 1; k <= i; k++ {
		trial := &b.trials[k]
		for _, change := range trial.Changed {
			advice = b.changed(advice, change)
		}
		advice.Combination = trial.Combination.over(advice.Combination)
		advice.Settings = trial.Settings.over(advice.Settings)
	}
	return advice
}

// changed is the advice with one change carried out. Changes that settings cannot show leave it as it is.
func (b *bench) changed(advice StepAdvice, change string) StepAdvice {
	s, by := &advice.Settings, b.c.policy.change
	switch change {
	case "more-passes":
		s.Passes = min(s.Passes+by.passes, mostPasses)
	case "slower-arm":
		s.ArmCmS = max(s.ArmCmS-by.armCmS, slowestArm)
	case "less-liquid":
		s.Drops = max(s.Drops-by.drops, fewestDrops)
	case "more-liquid":
		s.Drops = min(s.Drops+by.drops, mostDrops)
	case "lower-speed":
		s.Speed = nextIn(speedsLowFirst, s.Speed, -1)
	case "milder-pad":
		advice.Combination = b.withPad(advice.Combination, -1)
	case "stronger-pad":
		advice.Combination = b.withPad(advice.Combination, 1)
	}
	return advice
}

// withPad takes the next pad of the order, and the shop's own of that class.
func (b *bench) withPad(c Combination, by int) Combination {
	c.Pad = nextIn(padsMildestFirst, c.Pad, by)
	c.PadID = ""
	own := b.c.a.fromCatalogue(Combination{Pad: c.Pad})
	c.PadID = own.PadID
	return c
}

// nextIn is the neighbour of a word in an order; a word at the end, or outside, stays.
func nextIn(order []string, word string, by int) string {
	at := slices.Index(order, word)
	if at < 0 || at+by < 0 || at+by >= len(order) {
		return word
	}
	return order[at+by]
}

// over is what was used, taken from c where it says and from other where it does not.
func (c Combination) over(other Combination) Combination {
	if c.Pad != "" && c.Pad != other.Pad && c.PadID == "" {
		other.PadID = ""
	}
	if c.Machine != "" && c.Machine != other.Machine && c.MachineID == "" {
		other.MachineID = ""
	}
	if c.Liquid != "" && c.Liquid != other.Liquid && c.LiquidID == "" {
		other.LiquidID = ""
	}
	for _, word := range []struct {
		said  string
		field *string
	}{
		{c.Machine, &other.Machine},
		{c.Pad, &other.Pad},
		{c.Liquid, &other.Liquid},
		{c.MachineID, &other.MachineID},
		{c.PadID, &other.PadID},
		{c.LiquidID, &other.LiquidID},
	} {
		if word.said != "" {
			*word.field = word.said
		}
	}
	return other
}

// UsedSettings are how a technician says a step was run; nil and empty mean "as recommended".
type UsedSettings struct {
	Speed                              string
	Passes, OverlapPct, ArmCmS         *float64
	SectionPadAreas, Drops, CleanEvery *float64
}

// over is the settings that were used, taken from other where nothing is said.
func (u UsedSettings) over(other Settings) Settings {
	if u.Speed != "" {
		other.Speed = u.Speed
	}
	for _, number := range []struct{ said, field *float64 }{
		{u.Passes, &other.Passes},
		{u.OverlapPct, &other.OverlapPct},
		{u.ArmCmS, &other.ArmCmS},
		{u.SectionPadAreas, &other.SectionPadAreas},
		{u.Drops, &other.Drops},
		{u.CleanEvery, &other.CleanEvery},
	} {
		if number.said != nil {
			*number.field = *number.said
		}
	}
	return other
}
