package advisor

import (
	"fmt"
	"slices"
	"strings"
)

// settingsInWords is how a step is run, for a sentence.
func settingsInWords(s *StepAdvice) string {
	return fmt.Sprintf("a %s machine, %s and %s, at %s speed, in %s passes", plainWord(s.Combination.Machine), plainWord(s.Combination.Pad),
		plainWord(s.Combination.Liquid), s.Settings.Speed, showNumber(s.Settings.Passes, ""))
}

// settingsChanges are the things that differ between two ways to run a step: "finishing foam instead of polishing foam".
func settingsChanges(then, now *StepAdvice) []string {
	var out []string
	word := func(a, b string) {
		if a != b {
			out = append(out, plainWord(a)+" instead of "+plainWord(b))
		}
	}
	number := func(a, b float64, what string) {
		if a != b {
			out = append(out, fmt.Sprintf(what, showNumber(a, ""))+" instead of "+showNumber(b, ""))
		}
	}
	word(then.Combination.Machine, now.Combination.Machine)
	word(then.Combination.Pad, now.Combination.Pad)
	word(then.Combination.Liquid, now.Combination.Liquid)
	if then.Settings.Speed != now.Settings.Speed {
		out = append(out, then.Settings.Speed+" speed instead of "+now.Settings.Speed)
	}
	number(then.Settings.Passes, now.Settings.Passes, "%s passes")
	number(then.Settings.ArmCmS, now.Settings.ArmCmS, "an arm of %s cm/s")
	number(then.Settings.OverlapPct, now.Settings.OverlapPct, "an overlap of %s %%")
	number(then.Settings.SectionPadAreas, now.Settings.SectionPadAreas, "sections of %s pad faces")
	number(then.Settings.Drops, now.Settings.Drops, "%s "+plural(int(then.Settings.Drops), "drop")+" a section")
	number(then.Settings.CleanEvery, now.Settings.CleanEvery, "the pad cleaned after %s "+plural(int(then.Settings.CleanEvery), "section"))
	return out
}

// firstFew leaves the less telling differences out.
func firstFew(changes []string) []string {
	if len(changes) > mostTold+1 {
		return append(slices.Clip(changes[:mostTold]), "other settings too")
	}
	return changes
}

// cautionsThen is what there would be to watch more, or no longer.
func cautionsThen(then, now *finding) string {
	more, less := onlyIn(then.watch, now.watch), onlyIn(now.watch, then.watch)
	var parts []string
	if len(more) > 0 {
		parts = append(parts, "you would have to watch this too: "+fewSentences(more))
	}
	if len(less) > 0 {
		parts = append(parts, "you would no longer have to watch this: "+fewSentences(less))
	}
	return strings.Join(parts, "; ")
}

func fewSentences(all []string) string {
	text := oneSentence(all[0])
	if more := len(all) - 1; more > 0 {
		text += fmt.Sprintf(", and %d more", more)
	}
	return text
}

// oneSentence puts several sentences into one.
func oneSentence(text string) string {
	parts := strings.Split(trimStop(text), ". ")
	for i := range parts {
		parts[i] = lowerFirst(parts[i])
	}
	return strings.Join(parts, "; ")
}

func onlyIn(all, without []Caution) []string {
	var out []string
	for _, c := range all {
		if !slices.ContainsFunc(without, func(o Caution) bool { return o.Reason.Rule == c.Reason.Rule }) {
			out = append(out, c.Do)
		}
	}
	return out
}
