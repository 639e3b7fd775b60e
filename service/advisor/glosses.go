package advisor

import (
	"github.com/glossladder/glossladder/service/gloss"
)

// reckonGloss fills the baseline facts of gloss and haze.
func (c *panelCase) reckonGloss() {
	at := map[gloss.Scale]float64{}
	for scale, fact := range factOfScale {
		if mean, ok := meanOn(scale, c.panel.Gloss); ok {
			at[scale] = mean
			c.sheet.number(fact, &mean, nearest)
		}
	}
	scale, ok := judgingScale(at)
	if !ok {
		return
	}
	findings := &GlossFindings{MeanGU: at[scale], PlusMinusGU: c.plusMinus(scale)}
	degrees, _ := scale.Degrees()
	findings.Angle = int(degrees)
	if ceiling, err := gloss.CeilingGU(scale, c.policy.refractiveIndex); err == nil {
		findings.CeilingGU, findings.HeadroomGU = ceiling, ceiling-at[scale]
		c.sheet.number("gloss.headroom_gu", &findings.HeadroomGU, nearest)
	}
	c.reckonHaze(at, findings)
	c.gloss = findings
}

var factOfScale = map[gloss.Scale]string{
	gloss.Gloss20: "gloss.at20_gu", gloss.Gloss60: "gloss.at60_gu", gloss.Gloss85: "gloss.at85_gu", gloss.Haze: "haze.meter_hu",
}

func (c *panelCase) reckonHaze(at map[gloss.Scale]float64, findings *GlossFindings) {
	at20, has20 := at[gloss.Gloss20]
	if at60 := at[gloss.Gloss60]; has20 && at60 > gloss.HighGloss60GU {
		index := at60 - at20
		findings.HazeHU, findings.HazeIsIndex = &index, true
		c.sheet.number("haze.index_hu", &index, nearest)
	}
	if meter, ok := at[gloss.Haze]; ok {
		findings.HazeHU, findings.HazeIsIndex = &meter, false
	}
}

// plusMinus is the expanded uncertainty of the panel's mean; nil when a single reading leaves it unknown.
func (c *panelCase) plusMinus(scale gloss.Scale) *float64 {
	panel, err := gloss.Measure(c.in.GlossMeter.on(scale), spotsOn(scale, c.panel.Gloss), c.policy.confidence())
	if err != nil {
		return nil
	}
	return &panel.Uncertainty.Expanded
}

// meanOn is the mean of the spot means on one scale; false when no spot was read on it.
func meanOn(scale gloss.Scale, spots []GlossSpot) (float64, bool) {
	on := spotsOn(scale, spots)
	return meanOf(on), len(on) > 0
}

// judgingScale picks the angle by ISO 2813 from the 60° reading, among the angles that were read.
func judgingScale(at map[gloss.Scale]float64) (gloss.Scale, bool) {
	if at60, ok := at[gloss.Gloss60]; ok {
		if best, err := gloss.ScaleFor(at60); err == nil {
			if _, read := at[best]; read {
				return best, true
			}
		}
		return gloss.Gloss60, true
	}
	for _, scale := range []gloss.Scale{gloss.Gloss20, gloss.Gloss85} {
		if _, ok := at[scale]; ok {
			return scale, true
		}
	}
	return 0, false
}

// confidence is the policy's confidence as a share of one.
func (p policy) confidence() float64 { return p.confidencePct / 100 }
