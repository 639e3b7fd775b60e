package page

import (
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// told is one line about a panel.
type told struct{ lead, text string }

// situationOf is what is known of a panel, in a few lines.
func situationOf(of *glossladderv1.Inspection, panel *glossladderv1.Panel) []told {
	lines := []told{
		{"paint", paintOf(of, panel)},
		{"marks", marksOf(panel.GetDefects())},
		{"film", filmOf(panel.GetFilm())},
	}
	if level := of.GetGoal().GetLevel(); level != glossladderv1.GoalLevel_GOAL_LEVEL_UNSPECIFIED {
		lines = append(lines, told{"goal", plainWord(level)})
	}
	if heat := panelHeat(of, panel); heat != nil {
		lines = append(lines, told{"panel", with(*heat, "°C")})
	}
	return lines
}

func panelHeat(of *glossladderv1.Inspection, panel *glossladderv1.Panel) *float64 {
	switch climate := of.GetClimate(); {
	case panel.PanelC != nil:
		return panel.PanelC
	case climate != nil:
		return climate.PanelC
	}
	return nil
}

func paintOf(of *glossladderv1.Inspection, panel *glossladderv1.Panel) string {
	own, vehicle := panel.GetPaint(), of.GetVehicle().GetPaint()
	words := []string{
		ownOr(plainWord(own.GetSystem()), plainWord(vehicle.GetSystem()), "top layer not known"),
		ownOr(plainWord(own.GetSoftness()), plainWord(vehicle.GetSoftness()), "softness not known"),
		ownOr(plainWord(own.GetShade()), plainWord(vehicle.GetShade()), "shade not known"),
	}
	for _, paint := range []*glossladderv1.Paint{own, vehicle} {
		if paint != nil && paint.AgeYears != nil {
			words = append(words, plural(int(paint.GetAgeYears()), "year old", "years old"))
			break
		}
	}
	return strings.Join(words, ", ")
}

func ownOr(own, vehicle, otherwise string) string {
	for _, word := range []string{own, vehicle} {
		if word != "" {
			return word
		}
	}
	return otherwise
}

func marksOf(defects []*glossladderv1.Defect) string {
	if len(defects) == 0 {
		return "none found"
	}
	words := make([]string, len(defects))
	for i, d := range defects {
		words[i] = plainWord(d.GetKind())
		if d.Severity != nil {
			words[i] += " of severity " + number(d.GetSeverity())
		}
		if d.CatchesNail != nil && d.GetCatchesNail() {
			words[i] += " that catch a fingernail"
		}
	}
	return listed(words)
}

func filmOf(spots []*glossladderv1.FilmSpot) string {
	if len(spots) == 0 {
		return "not measured"
	}
	words := make([]string, len(spots))
	for i, spot := range spots {
		readings := spot.GetTotalUm()
		kind := ""
		if len(readings) == 0 {
			readings, kind = spot.GetClearUm(), " of clear"
		}
		texts := make([]string, len(readings))
		for k, um := range readings {
			texts[k] = number(um)
		}
		words[i] = fmt.Sprintf("%s %s%sµm%s", spot.GetSpot(), strings.Join(texts, ", "), nbsp, kind)
	}
	return strings.Join(words, "; ")
}
