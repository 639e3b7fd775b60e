package page

import (
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// findings sets what the readings of a panel say.
func (p *paper) findings(indent, hang int, advice *glossladderv1.PanelAdvice) {
	if advice.GetFilm() == nil && advice.GetGloss() == nil && advice.DewPointC == nil {
		return
	}
	p.blank()
	p.heading(indent, "What the readings say")
	p.film(indent+2, hang, advice.GetFilm())
	p.gloss(indent+2, hang, advice.GetGloss())
	if advice.DewPointC != nil {
		p.item(indent+2, hang, say("dew point"), say(with(advice.GetDewPointC(), "°C")))
	}
}

func (p *paper) film(indent, hang int, f *glossladderv1.FilmFindings) {
	if f == nil {
		return
	}
	p.item(indent, hang, say("film"), say(fmt.Sprintf("lowest spot %s, no less than %s; clear coat at least %s",
		with(f.GetLowestUm(), "µm"), with(f.GetLowestBoundUm(), "µm"), with(f.GetClearUm(), "µm"))))
	if spots := f.GetSpots(); len(spots) > 0 {
		parts := make([]string, len(spots))
		for i, s := range spots {
			parts[i] = fmt.Sprintf("%s %s (%s)", s.GetSpot(), with(s.GetMeanUm(), "µm"), plural(int(s.GetReadings()), "reading", "readings"))
		}
		p.para(hang, in(faint, strings.Join(parts, ", ")))
	}
	p.item(indent, hang, say("may still go"), in(strong, with(f.GetUsableUm(), "µm")))
	p.para(hang, in(faint, f.GetUsableBecause()))
	if len(f.GetSigns()) > 0 {
		p.item(indent, hang, say("signs"), in(wary, strings.Join(f.GetSigns(), ", ")), say("(evidence, not proof)"))
	}
}

func (p *paper) gloss(indent, hang int, g *glossladderv1.GlossFindings) {
	if g == nil {
		return
	}
	if g.GetAngle() != 0 {
		mean := reading(g.GetMeanGu(), "GU")
		if g.PlusMinusGu != nil {
			mean = fmt.Sprintf("%s ± %s", tenths(g.GetMeanGu()), reading(g.GetPlusMinusGu(), "GU"))
		}
		p.item(indent, hang, say("gloss"), say(fmt.Sprintf("%s at %d°, %s under the optical ceiling of %s",
			mean, g.GetAngle(), reading(g.GetHeadroomGu(), "GU"), reading(g.GetCeilingGu(), "GU"))))
	}
	if g.HazeHu != nil {
		by := "on the meter's own scale"
		if g.GetHazeIsIndex() {
			by = "as the index of 60° less 20° gloss"
		}
		p.item(indent, hang, say("haze"), say(reading(g.GetHazeHu(), "HU")+" "+by))
	}
}
