package rpc

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/hindsight"
	"github.com/glossladder/glossladder/service/history/lessons"
)

func lessonOut(l *lessons.Lesson, req *glossladderv1.GetLessonsRequest, usual advisor.Reason) *glossladderv1.Lesson {
	out := &glossladderv1.Lesson{
		Step: word[glossladderv1.Step](l.Class.Step), Softness: word[glossladderv1.Softness](l.Class.Softness),
		Defect: word[glossladderv1.DefectKind](l.Class.Kind), Shade: word[glossladderv1.Shade](l.Class.Shade),
		Jobs: int32(l.Jobs), SuccessPct: learnedOut(&l.Success, 100),
		RemovalUm: learnedOut(&l.RemovalUm, 1), TrialMinutes: learnedOut(&l.TrialMinutes, 1), Usual: reasonOut(usual),
	}
	if req.Severity != nil || req.GetEveryClass() {
		out.Severities = l.Class.Band.String()
	}
	if l.WorkMinutes.N > 0 {
		out.WorkMinutes = learnedOut(&l.WorkMinutes, 1)
	}
	for _, angle := range l.Angles() {
		gain := l.Gain[angle]
		out.Gains = append(out.Gains, &glossladderv1.GainLesson{Angle: int32(angle), GainGu: learnedOut(&gain, 1)})
	}
	return out
}

// learnedOut is an estimate in another unit, rounded to what somebody reads.
func learnedOut(e *lessons.Estimate, per float64) *glossladderv1.LessonEstimate {
	digits := 100.0
	if per > 1 {
		digits = 10
	}
	round := func(v float64) float64 { return math.Round(v*per*digits) / digits }
	out := &glossladderv1.LessonEstimate{
		Records: int32(e.N), Mean: round(e.Mean), Low: round(e.Low), High: round(e.High), Usual: round(e.Usual), Shop: round(e.Shop),
	}
	if e.Own != nil {
		own := round(*e.Own)
		out.Own = &own
	}
	if e.Shrunk != nil {
		shrunk := math.Round(100 * *e.Shrunk)
		out.ShrunkPct = &shrunk
	}
	return out
}

func replayOut(r *hindsight.Report) *glossladderv1.ReplayReport {
	out := &glossladderv1.ReplayReport{
		RuleSet: r.RuleSet, Decisions: int32(r.Decisions), Panels: int32(r.Panels), Advice: int32(r.Advice), Verdicts: int32(r.Verdicts),
		RuleSets: int32(r.Sets), All: tallyOut(&r.All), UnknownSets: int32(r.UnknownSets), StrangeFacts: int32(r.Strange), Limits: hindsight.Limits(),
	}
	for i := range r.Classes {
		c := &r.Classes[i]
		out.Classes = append(out.Classes, &glossladderv1.ReplayClass{
			Softness: word[glossladderv1.Softness](c.Class.Softness), Severities: c.Class.Band.String(),
			Defect: word[glossladderv1.DefectKind](c.Class.Kind), Tally: tallyOut(&c.Tally),
		})
	}
	for i := range r.Moves {
		m := &r.Moves[i]
		out.Moves = append(out.Moves, &glossladderv1.AnswerMove{
			Table: m.Table, Before: m.Was, After: m.Is, Panels: int32(m.Panels), Examples: onRecordOut(m.Examples),
		})
	}
	for _, field := range slices.Sorted(maps.Keys(r.Unfollowed)) {
		out.Unfollowed = append(out.Unfollowed, &glossladderv1.UnfollowedField{Field: field, Panels: int32(r.Unfollowed[field])})
	}
	return out
}

func tallyOut(t *hindsight.Tally) *glossladderv1.ReplayTally {
	return &glossladderv1.ReplayTally{
		Panels: int32(t.Panels), Starts: int32(t.Starts), Limits: int32(t.Limits), Readiness: int32(t.Readiness), Ladders: int32(t.Ladders),
		Settings: int32(t.Settings), Cautions: int32(t.Cautions), Verdicts: int32(t.Verdicts),
		ForNew: int32(t.ForNew), ForOld: int32(t.ForOld), ForNeither: int32(t.Neither), Open: int32(t.Open),
		TrialsSaved: int32(t.Trials), TrialsTimed: int32(t.Timed), MinutesSaved: math.Round(t.Minutes*10) / 10, FilmSavedUm: math.Round(t.FilmUm*10) / 10,
	}
}

func onRecordOut(all []hindsight.Example) []*glossladderv1.PanelOnRecord {
	var out []*glossladderv1.PanelOnRecord
	for _, e := range all {
		out = append(out, &glossladderv1.PanelOnRecord{Decision: fmt.Sprintf("%s/%s/events/%d", jobs, e.Job, e.Event), PanelId: e.Panel})
	}
	return out
}

func hintOut(h *hindsight.Hint) *glossladderv1.RuleHint {
	out := &glossladderv1.RuleHint{
		Table: h.Table, RuleId: h.Rule, Let: h.Let, File: h.File, Line: int32(h.Line), Before: h.Was, After: h.Is,
		Panels: int32(h.Panels), ForChange: int32(h.ForChange), Against: int32(h.Against), Open: int32(h.Open),
		SurelyPct: math.Floor(h.Surely*10000) / 100, TrialsSaved: int32(h.Trials), TrialsTimed: int32(h.Timed),
		MinutesSaved: h.Minutes, FilmSavedUm: h.FilmUm, Examples: onRecordOut(h.Examples),
	}
	for i := range h.Effect.Regions {
		if i == mostEffects {
			out.MoreEffects = int32(len(h.Effect.Regions) - i)
			break
		}
		out.Effects = append(out.Effects, effectOut(h.Table, &h.Effect.Regions[i]))
	}
	return out
}

func questionOut(e *hindsight.Explained, schema *rules.Schema) *glossladderv1.QuestionExplained {
	out := &glossladderv1.QuestionExplained{
		PanelId: e.Panel, About: e.About, Table: e.Explanation.Table, Agrees: e.Agrees, StrangeFacts: e.Strange,
	}
	for _, said := range e.Recorded {
		out.Recorded = append(out.Recorded, tableAnswerOut(said))
	}
	for _, why := range e.Explanation.Winners {
		out.Reasons = append(out.Reasons, reasonOut(advisor.ReasonOf(e.Explanation.Table, why, schema)))
		out.Results = append(out.Results, why.Result.String())
	}
	for _, near := range e.Explanation.Near {
		missed := &glossladderv1.NearMiss{RuleId: near.Rule, File: near.File, Line: int32(near.Line), Answer: near.Result.String(), Failed: near.Text}
		if near.Fact >= 0 {
			missed.Fact = schema.Fact(near.Fact).Name
		}
		if strings.HasPrefix(missed.GetFact(), "history.") && strings.Contains(near.Text, "not known") {
			continue // that nothing was on record explains nothing
		}
		out.NearMisses = append(out.NearMisses, missed)
	}
	return out
}

func tableAnswerOut(a history.TableAnswer) *glossladderv1.TableAnswer {
	return &glossladderv1.TableAnswer{Table: a.Table, RuleId: a.Rule, Answer: a.Answer}
}
