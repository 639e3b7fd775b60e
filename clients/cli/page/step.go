package page

import (
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// step sets how to run one step: with what, how, what it takes, and why so.
func (p *paper) step(indent, hang int, lead string, advice *glossladderv1.StepAdvice) {
	p.item(indent, hang, in(strong, lead), say(combinationWords(advice.GetCombination())))
	if settings := settingsWords(advice.GetSettings()); settings != "" {
		p.para(hang, say(settings))
	}
	if removal := removalWords(advice); removal != "" {
		p.para(hang, say(removal))
	}
	if spans := because(advice.GetReason()); len(spans) > 0 {
		p.para(hang, append([]span{say("why so:")}, spans...)...)
		p.seenInFull(advice.GetReason())
	}
}

// combinationWords names machine, pad and liquid by class, and the shop's own by id.
func combinationWords(c *glossladderv1.Combination) string {
	var parts []string
	for _, part := range []struct{ class, id string }{
		{plainWord(c.GetMachine()), c.GetMachineId()}, {plainWord(c.GetPad()), c.GetPadId()}, {plainWord(c.GetLiquid()), c.GetLiquidId()},
	} {
		switch {
		case part.class != "" && part.id != "":
			parts = append(parts, fmt.Sprintf("%s [%s]", part.class, part.id))
		case part.class != "" || part.id != "":
			parts = append(parts, part.class+part.id)
		}
	}
	if len(parts) == 0 {
		return "any combination"
	}
	return strings.Join(parts, " + ")
}

func settingsWords(s *glossladderv1.Settings) string {
	var parts []string
	add := func(given *float64, format string, unit string) {
		if given != nil {
			parts = append(parts, fmt.Sprintf(format, with(*given, unit)))
		}
	}
	count := func(given *float64, format, one, many string) {
		if given == nil {
			return
		}
		unit := many
		if *given == 1 {
			unit = one
		}
		add(given, format, unit)
	}
	if s.GetSpeed() != glossladderv1.SpeedBand_SPEED_BAND_UNSPECIFIED {
		parts = append(parts, plainWord(s.GetSpeed())+" speed")
	}
	if s == nil {
		return ""
	}
	count(s.Passes, "%s", "pass", "passes")
	add(s.OverlapPct, "%s overlap", "%")
	add(s.ArmCmS, "arm at %s", "cm/s")
	count(s.SectionPadAreas, "section of %s", "pad face", "pad faces")
	count(s.Drops, "%s a section", "drop", "drops")
	count(s.CleanEvery, "clean the pad after %s", "section", "sections")
	return strings.Join(parts, ", ")
}

func removalWords(advice *glossladderv1.StepAdvice) string {
	r := advice.GetRemoval()
	if r == nil {
		return ""
	}
	text := fmt.Sprintf("takes about %s (%s to %s)", with(r.GetLikelyUm(), "µm"), number(r.GetLowUm()), with(r.GetHighUm(), "µm"))
	switch left := advice.UsableAfterUm; {
	case left == nil:
		return text + "; what it leaves is not known without film readings"
	case *left < 0:
		return text + fmt.Sprintf("; that is %s more than may go", with(-*left, "µm"))
	default:
		return text + fmt.Sprintf("; leaves at least %s that may still go", with(*left, "µm"))
	}
}
