package advisor

import (
	"fmt"
	"slices"
	"strings"
)

// subject is one question about a panel: a table, and which defect or step it is asked about, 0 for the panel.
type subject struct {
	table string
	nth   int
}

// finding is how a question was answered. Equal keys are equal answers.
type finding struct {
	key    string
	answer string // as rules write it, "" when no rule could tell
	rule   string
	// because is the reason of that rule.
	because string
	// do is what readiness asks to be done, or what a verdict asks to be changed, in words.
	do string
	// step is how a step is to be run, for settings.
	step *StepAdvice
	// watch is the cautions that can do harm.
	watch []Caution
}

// findings are all answers for a panel: with a trial the verdict, and otherwise all decisions before work.
func findings(said *answers) map[subject]finding {
	if v := said.verdict; v != nil {
		return map[subject]finding{{table: "verdict"}: verdictFinding(v)}
	}
	p := &said.advice
	out := map[subject]finding{
		{table: "limit"}:     {key: p.Limit, answer: p.Limit, rule: p.LimitReason.Rule, because: p.LimitReason.Because},
		{table: "ladder"}:    {key: p.Ladder, answer: p.Ladder, rule: p.LadderReason.Rule, because: p.LadderReason.Because},
		{table: "readiness"}: readinessFinding(p.Readiness),
		{table: "cautions"}:  cautionsFinding(p.Cautions),
	}
	for i, d := range p.Defects {
		out[subject{"start", i}] = finding{key: d.Start, answer: d.Start, rule: d.Reason.Rule, because: d.Reason.Because}
	}
	for i := range p.Steps {
		step := &p.Steps[i]
		out[subject{"settings", strength(step.Step)}] = finding{
			key: fmt.Sprint(step.Combination, step.Settings), answer: settingsWord(step), rule: step.Reason.Rule, because: step.Reason.Because, step: step,
		}
	}
	return out
}

func verdictFinding(v *Verdict) finding {
	out := finding{key: v.Kind + " " + v.Change, answer: v.Kind, rule: v.Reason.Rule, because: v.Reason.Because}
	if v.Change != "" {
		out.do = changeInWords[v.Change]
	}
	return out
}

// readinessFinding goes by the gravest effect; a note holds nobody up.
func readinessFinding(all []Readiness) finding {
	if effect := worstEffect(all); effect == "" || effect == "note" {
		return finding{key: "begin", answer: effect}
	}
	return finding{key: all[0].Effect, answer: all[0].Effect, rule: all[0].Reason.Rule, because: all[0].Reason.Because, do: oneSentence(all[0].Do)}
}

// cautionsFinding goes by what can hurt someone or take off paint for good.
func cautionsFinding(all []Caution) finding {
	out := finding{}
	var rules []string
	for _, c := range all {
		if c.Level == "danger" {
			out.watch = append(out.watch, c)
			rules = append(rules, c.Reason.Rule)
		}
	}
	slices.Sort(rules)
	out.key = strings.Join(rules, " ")
	if len(all) > 0 {
		out.answer = all[0].Level
		out.rule = all[0].Reason.Rule
	}
	return out
}

// settingsWord is how a step is run, in one line.
func settingsWord(s *StepAdvice) string {
	return fmt.Sprintf("%s, %s, %s, %s speed, %s passes", plainWord(s.Combination.Machine), plainWord(s.Combination.Pad),
		plainWord(s.Combination.Liquid), s.Settings.Speed, showNumber(s.Settings.Passes, ""))
}
