package rpc

import (
	"encoding/json"
	"maps"
	"math"
	"slices"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
)

// adviceKept is a recommendation as it is recorded.
func adviceKept(said *advisor.Recommendation, records []advisor.Record) (draft, error) {
	out := &history.Decision{RuleSet: said.RuleSet}
	for i := range said.Panels {
		advice := &said.Panels[i]
		decided := history.PanelDecided{Panel: advice.Panel, Ladder: advice.Ladder, SeverityAllowed: &advice.AllowedSeverity}
		for _, step := range advice.Steps {
			decided.Steps = append(decided.Steps, history.StepExpected{Step: step.Step, Removal: history.RemovalOf(step.Removal)})
		}
		keepRecord(out, &decided, &records[i])
	}
	return draftOf(out, recommendationOut(*said), nil)
}

// verdictKept is a verdict as it is recorded; trial is the sequence of the trial that it judges.
func verdictKept(said *advisor.Verdict, record *advisor.Record, trial int64) (draft, error) {
	out := &history.Decision{RuleSet: said.RuleSet, Trial: trial}
	decided := history.PanelDecided{
		Panel: said.Panel, Ladder: said.Ladder, Proven: said.Proven, Verdict: said.Kind, Change: said.Change,
		Gloss: changeKept(said.Gloss), Haze: changeKept(said.Haze), SeverityLeft: said.SeverityLeft, SeverityAllowed: &said.AllowedSeverity,
	}
	if f := said.Film; f != nil {
		decided.Taken = &history.Taken{Removal: history.Removal{LowUm: f.LowUm, LikelyUm: f.TakenUm, HighUm: f.HighUm}, Measured: f.Measured}
	}
	if next := said.Next; next != nil {
		decided.Steps = []history.StepExpected{{Step: next.Step, Removal: history.RemovalOf(next.Advice.Removal)}}
	}
	keepRecord(out, &decided, record)
	return draftOf(out, verdictOut(*said), nil)
}

// keepRecord adds a panel and what the rules were asked about it.
func keepRecord(out *history.Decision, decided *history.PanelDecided, record *advisor.Record) {
	out.ConfidencePct = max(out.ConfidencePct, record.ConfidencePct)
	decided.Beside = beside(decided.Steps, record.Removal)
	out.Panels = append(out.Panels, *decided)
	for i := range record.Sheets {
		out.Sheets = append(out.Sheets, sheetKept(record.Panel, &record.Sheets[i]))
	}
}

// beside are the steps that are not advised.
func beside(advised []history.StepExpected, removal map[string]film.Removal) (out []history.StepExpected) {
	for _, step := range slices.Sorted(maps.Keys(removal)) {
		if !slices.ContainsFunc(advised, func(s history.StepExpected) bool { return s.Step == step }) {
			out = append(out, history.StepExpected{Step: step, Removal: history.RemovalOf(removal[step])})
		}
	}
	return out
}

// changeKept is nil where no comparison could be made.
func changeKept(c *advisor.Change) *history.Changed {
	if c == nil || c.Gain.Method == 0 {
		return nil
	}
	for _, v := range []float64{c.Gain.Mean, c.Gain.Low, c.Gain.High, c.Before, c.After} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil
		}
	}
	degrees, _ := c.Scale.Degrees()
	return &history.Changed{
		Angle: int(degrees), Mean: c.Gain.Mean, Low: c.Gain.Low, High: c.Gain.High, Judgement: c.Judgement, Before: c.Before, After: c.After,
	}
}

func sheetKept(panel string, sheet *advisor.Sheet) history.FactSheet {
	out := history.FactSheet{Panel: panel, About: sheet.About, Facts: factsKept(sheet.Facts)}
	for _, answer := range sheet.Answers {
		out.Answers = append(out.Answers, history.TableAnswer{Table: answer.Table, Rule: answer.Rule, Answer: answer.Answer})
	}
	return out
}

// factsKept are the facts that were known.
func factsKept(in *rules.Input) map[string]any {
	out := map[string]any{}
	schema := in.Schema()
	for i, fact := range schema.Facts() {
		id := rules.FactID(i)
		if !in.Known(id) {
			continue
		}
		switch fact.Kind {
		case rules.Number:
			out[fact.Name], _ = in.Number(id)
		case rules.Word:
			out[fact.Name], _ = in.Word(id)
		case rules.Flag:
			out[fact.Name], _ = in.Flag(id)
		}
	}
	return out
}

// decisionKept is a decision as it is told.
func decisionKept(d *history.Decision, answer json.RawMessage) (*glossladderv1.Decision, error) {
	out := &glossladderv1.Decision{RuleSet: d.RuleSet, Trial: d.Trial}
	for i := range d.Sheets {
		out.Sheets = append(out.Sheets, sheetOut(&d.Sheets[i]))
	}
	var err error
	if d.Trial == 0 {
		what := &glossladderv1.Decision_Recommendation{}
		what.Recommendation, err = documentInto(answer, &glossladderv1.Recommendation{})
		out.Answer = what
		return out, err
	}
	what := &glossladderv1.Decision_Verdict{}
	what.Verdict, err = documentInto(answer, &glossladderv1.Verdict{})
	out.Answer = what
	return out, err
}

func sheetOut(s *history.FactSheet) *glossladderv1.FactSheet {
	out := &glossladderv1.FactSheet{PanelId: s.Panel, About: s.About}
	for _, name := range slices.Sorted(maps.Keys(s.Facts)) {
		fact := &glossladderv1.SeenFact{Fact: name}
		switch value := s.Facts[name].(type) {
		case float64:
			fact.Value = &glossladderv1.SeenFact_Number{Number: value}
		case string:
			fact.Value = &glossladderv1.SeenFact_Word{Word: value}
		case bool:
			fact.Value = &glossladderv1.SeenFact_Flag{Flag: value}
		}
		out.Facts = append(out.Facts, fact)
	}
	for _, answer := range s.Answers {
		out.Answers = append(out.Answers, &glossladderv1.TableAnswer{Table: answer.Table, RuleId: answer.Rule, Answer: answer.Answer})
	}
	return out
}
