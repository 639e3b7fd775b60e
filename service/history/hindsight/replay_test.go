package hindsight_test

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/hindsight"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/history/trace"
)

// edits that a shop could make, of every table that is followed.
var edits = map[string]edit{
	"nothing":               {"start.yaml", "Soft paint corrects with little", "Soft paint gives way with little"},
	"start sooner":          {"start.yaml", "let.must_go && defect.severity >= 2\n", "let.must_go && defect.severity >= 1.5\n"},
	"never a cut":           {"start.yaml", "then: {step: cut}", "then: {step: polish}"},
	"stricter limit":        {"limit.yaml", "when: film.edge_drop_um >= 15\n", "when: film.edge_drop_um >= 0 || paint.shade == \"dark\"\n"},
	"wait when warm":        {"readiness.yaml", "climate.panel_c >= 45", "climate.panel_c >= 25"},
	"ladder":                {"ladder.yaml", "then: {ladder: polish}", "then: {ladder: polish-finish}"},
	"more to stay":          {"policy.yaml", "clear_floor_um: 30", "clear_floor_um: 33"},
	"less may go":           {"policy.yaml", "take_share_pct: 25, take_most_um: 12.7", "take_share_pct: 12, take_most_um: 5"},
	"thin is thicker":       {"policy.yaml", "thin_um: 85, repaint_um: 190", "thin_um: 110, repaint_um: 150"},
	"a larger share":        {"policy.yaml", "clear_share_pct: 32", "clear_share_pct: 28"},
	"cuts take more":        {"removal.yaml", "{low_um: 1.5, likely_um: 2.5, high_um: 4}", "{low_um: 1.5, likely_um: 3.5, high_um: 7}"},
	"finishes take nothing": {"removal.yaml", "{low_um: 0, likely_um: 0.2, high_um: 0.5}", "{low_um: 0, likely_um: 0.1, high_um: 0.2}"},
}

// What hindsight says an edited set would have answered is what the adviser answers with that set to the same inspection. Where
// the policy moves the film that may go, the record has it to 0.1 µm only: one answer in a hundred may then be the more careful.
func TestReplayAnswersAsTheAdviserWould(t *testing.T) {
	was := set(t)
	before := adviser(t, was)
	for name, e := range edits {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(7, 7))
			now := set(t, e)
			after := adviser(t, now)
			changed, careful := 0, 0
			for range 400 {
				in := anyInspection(r, 1)
				_, records, err := before.RecommendForRecord(in)
				require.NoError(t, err)
				want, err := after.Recommend(in)
				require.NoError(t, err)
				old, is := hindsight.Retell(now, was, sheetsOf(&records[0]))
				p := want.Panels[0]
				if e.file == "policy.yaml" && (is.Limit == "none" && p.Limit == "finish" || is.Limit == "finish" && p.Limit == "polish" || is.Limit == "polish" && p.Limit == "cut") {
					careful++
					continue
				}
				require.Equal(t, p.Start, is.Start, "start of %+v", in.Panels[0])
				require.Equal(t, p.Limit, is.Limit, "limit of %+v", in.Panels[0])
				effect := ""
				if len(p.Readiness) > 0 {
					effect = p.Readiness[0].Effect
				}
				require.Equal(t, effect, is.Effect)
				require.Equal(t, p.Ladder, is.Ladder, "ladder of %+v", in.Panels[0])
				if old.Start != is.Start || old.Limit != is.Limit || old.Effect != is.Effect || old.Ladder != is.Ladder {
					changed++
				}
			}
			t.Logf("%d of 400 more careful by rounding", careful)
			assert.LessOrEqual(t, careful, 4)
			assert.Equal(t, name != "nothing", changed > 0, "%d of 400 changed", changed)
		})
	}
}

// scan gives jobs as a store does.
func scan(jobs ...*job) iter.Seq2[history.Traced, error] {
	return func(yield func(history.Traced, error) bool) {
		for _, j := range jobs {
			for _, e := range j.events {
				if made := trace.Of(e.Body); made != nil && !yield(history.Traced{Job: e.Job, Sequence: e.Sequence, Trace: made}, nil) {
					return
				}
			}
		}
	}
}

func kept(sets ...*rules.Set) func(string) (*rules.Set, bool) {
	return func(hash string) (*rules.Set, bool) {
		for _, s := range sets {
			if s.Hash() == hash {
				return s, true
			}
		}
		return nil, false
	}
}

func replay(t testing.TB, was, now *rules.Set, jobs ...*job) *hindsight.Report {
	t.Helper()
	report, err := hindsight.Replay(t.Context(), scan(jobs...), now, hindsight.Options{Kept: kept(was)})
	require.NoError(t, err)
	return report
}

// Starting moderate marks in medium paint with a finish, and what came of panels that started with a polish.
func TestOutcomesSpeakForOneAnswer(t *testing.T) {
	was := set(t)
	a := adviser(t, was)
	milder := set(t, edit{"start.yaml", "let.must_go && defect.severity >= 2\n", "let.must_go && defect.severity >= 3\n"})
	harder := set(t, edit{"start.yaml", "let.medium_or_harder && defect.severity >= 4\n    then: {step: cut}\n    because: Heavy wash", "let.medium_or_harder && defect.severity >= 2\n    then: {step: cut}\n    because: Heavy wash"})
	for _, c := range []struct {
		name  string
		now   *rules.Set
		tell  func(*job)
		want  hindsight.Tally
		class int
	}{
		{
			"a polish was proven and nobody tried a finish", milder, func(j *job) { j.try("bonnet", "polish", "accept", 6) },
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, Open: 1},
			1,
		},
		{
			"a finish was tried first and fell short", milder, func(j *job) {
				j.try("bonnet", "finish", "adjust", 5)
				j.try("bonnet", "finish", "step-up", 4)
				j.try("bonnet", "polish", "accept", 6)
			},
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, ForOld: 1, Trials: -2, Timed: -2, Minutes: -9},
			1,
		},
		{
			"a finish was accepted after all", milder, func(j *job) {
				j.try("bonnet", "polish", "step-down", 6)
				j.try("bonnet", "finish", "accept", 5)
			},
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, ForNew: 1, FilmUm: 1},
			1,
		},
		{
			"the trials ended without an acceptance", milder, func(j *job) { j.try("bonnet", "polish", "stop", 6) },
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, Open: 1},
			1,
		},
		{
			"a cut where a polish was proven costs film", harder, func(j *job) { j.try("bonnet", "polish", "accept", 6) },
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, ForOld: 1, FilmUm: -2.5},
			1,
		},
		{
			"a cut where a polish fell short saves a trial", harder, func(j *job) {
				j.try("bonnet", "polish", "step-up", 6)
				j.try("bonnet", "cut", "refine", 7)
				j.try("bonnet", "polish", "accept", 6)
			},
			hindsight.Tally{Panels: 1, Starts: 1, Ladders: 1, Cautions: 1, ForNew: 1, Trials: 1, Timed: 1, Minutes: 6},
			1,
		},
	} {
		j := newJob("a")
		j.inspect(t, a, marked(2))
		c.tell(j)
		report := replay(t, was, c.now, j)
		c.want.Cautions, report.All.Cautions = 0, 0 // told by other tests
		assert.Equal(t, c.want, report.All, c.name)
		require.Len(t, report.Classes, c.class, c.name)
		assert.Equal(t, lessons.Class{Softness: "medium", Band: lessons.Moderate, Kind: "wash-marks"}, report.Classes[0].Class)
	}
}

func TestOnlyAdviceThatHoldsIsJudged(t *testing.T) {
	was := set(t)
	a := adviser(t, was)
	milder := set(t, edit{"start.yaml", "let.must_go && defect.severity >= 2\n", "let.must_go && defect.severity >= 3\n"})
	j := newJob("a")
	j.inspect(t, a, marked(2))
	j.inspect(t, a, marked(2)) // looked at again: the first advice was never followed
	j.try("bonnet", "finish", "step-up", 5)
	j.try("bonnet", "polish", "accept", 6)
	report := replay(t, was, milder, j)
	assert.Equal(t, 2, report.Decisions)
	assert.Equal(t, 2, report.All.Starts)
	assert.Equal(t, 1, report.All.ForOld)
	require.NotEmpty(t, report.Moves)
	assert.Equal(t, hindsight.Move{
		Table: "start", Was: "polish", Is: "finish", Panels: 2, Examples: []hindsight.Example{{"a", "bonnet", 3}, {"a", "bonnet", 5}},
	}, report.Moves[0])
}

func TestAVerdictThatTriedAgainInVain(t *testing.T) {
	was := set(t)
	now := set(t, edit{"verdict.yaml", "when: trial.short_by == 0.5 && let.eye && trial.on_step <= 2", "when: trial.short_by == 0.5 && let.eye && trial.on_step < 1"})
	sheet := func(verdict string) []history.FactSheet {
		return []history.FactSheet{{
			Panel: "bonnet", About: "polish", Answers: []history.TableAnswer{{Table: "verdict", Rule: "nearly-there-more-passes", Answer: verdict}},
			Facts: map[string]any{
				"step.now": "polish", "step.limit": "cut", "trial.short_by": 0.5, "trial.gain": "worthwhile", "trial.on_step": 1.0, "trial.number": 1.0,
				"trial.number_left": 7.0, "trial.after_step_up_um": 3.0, "trial.film_left_um": 6.0, "trial.improved_by": 1.0, "trial.panel_wiped": true,
				"trial.after_repeat_um": 4.0, "trial.severity_left": 1.5, "panel.worst_severity": 2.5, "trial.haze": "same",
			},
		}}
	}
	j := newJob("a")
	j.add(&history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", Softness: "medium"}}})
	for i, verdict := range []string{"adjust", "step-up"} {
		trial := j.add(&history.Trial{Panel: "bonnet", Step: "polish", Minutes: ptr(6.0 + float64(i))})
		d := &history.Decision{RuleSet: was.Hash(), Trial: trial, Panels: []history.PanelDecided{{Panel: "bonnet", Verdict: verdict}}}
		if i == 0 {
			d.Sheets = sheet(verdict)
		}
		j.add(d)
	}
	old, _ := hindsight.Retell(was, was, sheet("adjust"))
	_, same := hindsight.Retell(was, was, sheet("adjust"))
	require.Equal(t, old.Verdict, same.Verdict, "the sheet is one that the shipped rules answer so")
	report := replay(t, was, now, j)
	assert.Equal(t, hindsight.Tally{Panels: 1, Verdicts: 1, ForNew: 1, Trials: 1, Timed: 1, Minutes: 7}, report.All)
}

func TestWhatCannotBeFollowedIsTold(t *testing.T) {
	was := set(t)
	j := newJob("a")
	j.inspect(t, adviser(t, was), marked(2))
	now := set(t, edit{"policy.yaml", "confidence_pct: 95", "confidence_pct: 90"})
	assert.Equal(t, map[string]int{"confidence_pct": 1}, replay(t, was, now, j).Unfollowed)
	report, err := hindsight.Replay(t.Context(), scan(j), now, hindsight.Options{})
	require.NoError(t, err)
	assert.Equal(t, 1, report.UnknownSets)
	assert.Empty(t, report.Unfollowed)

	decision := j.events[2].Body.(*history.Decision)
	decision.Sheets[0].Facts["goal.level"] = "perfect"
	assert.Positive(t, replay(t, was, was, j).Strange, "a word that is none any more")
	for _, limits := range [][]string{hindsight.Limits(), hindsight.HintLimits()} {
		require.Greater(t, len(limits), 5)
		for _, says := range limits {
			assert.True(t, strings.HasSuffix(says, "."), says)
		}
	}
}

func TestTheReportDoesNotDependOnTheWorkers(t *testing.T) {
	was := set(t)
	now := set(t, edits["start sooner"], edits["less may go"])
	jobs := record(t, was, 300)
	var first *hindsight.Report
	for _, workers := range []int{1, 2, 5} {
		done := 0
		report, err := hindsight.Replay(t.Context(), scan(jobs...), now, hindsight.Options{
			Kept: kept(was), Workers: workers, Progress: func(n int) { done = max(done, n) },
		})
		require.NoError(t, err)
		assert.Equal(t, report.Decisions, done)
		if first == nil {
			first = report
		}
		assert.Equal(t, first, report, "%d workers", workers)
	}
	assert.Positive(t, first.All.Starts)
	assert.Positive(t, first.All.ForOld+first.All.ForNew)
	assert.Equal(t, 1, first.Sets)
}

func TestAScanThatBreaksOffBreaksOffTheReplay(t *testing.T) {
	was := set(t)
	gone := errors.New("gone")
	_, err := hindsight.Replay(t.Context(), func(yield func(history.Traced, error) bool) { yield(history.Traced{}, gone) }, was, hindsight.Options{})
	require.ErrorIs(t, err, gone)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err = hindsight.Replay(ctx, scan(record(t, was, 2000)...), was, hindsight.Options{})
	require.ErrorIs(t, err, context.Canceled)
}

// record is a record of so many jobs of one panel, whose advice the trials follow with some luck (invented).
func record(t testing.TB, was *rules.Set, n int) []*job {
	t.Helper()
	r := rand.New(rand.NewPCG(2, 5))
	a := adviser(t, was)
	var out []*job
	var templates []*job
	for i := range n {
		if i < 200 {
			j := newJob("x")
			in := anyInspection(r, 1)
			j.inspect(t, a, in)
			templates = append(templates, j)
		}
		from := templates[i%len(templates)]
		j := &job{id: fmt.Sprintf("job-%06d", i), events: append([]history.Event(nil), from.events...)}
		for k := range j.events {
			j.events[k].Job = j.id
		}
		ladder := j.events[2].Body.(*history.Decision).Panels[0].Ladder
		for at, step := range []string{"finish", "polish", "cut"} {
			if ladder == "none" || at == 0 && ladder[0] != 'f' || at == 1 && ladder[0] == 'c' {
				continue
			}
			if r.IntN(3) > 0 || step == "cut" {
				j.try("panel-0", step, map[bool]string{true: "accept", false: "refine"}[step != "cut"], 6)
				break
			}
			j.try("panel-0", step, "step-up", 6)
		}
		out = append(out, j)
	}
	return out
}

// 100,000 recorded decisions: those of the shipped rules, asked again of an edited set. The traces are in memory.
func BenchmarkReplay(b *testing.B) {
	was := set(b)
	for name, e := range map[string]edit{"start": edits["start sooner"], "policy": edits["less may go"]} {
		now := set(b, e)
		var rows []history.Traced
		for row := range scan(record(b, was, 100_000)...) {
			rows = append(rows, row)
		}
		traces := func(yield func(history.Traced, error) bool) {
			for _, row := range rows {
				if !yield(row, nil) {
					return
				}
			}
		}
		b.Run(name, func(b *testing.B) {
			decisions := 0
			for b.Loop() {
				report, err := hindsight.Replay(b.Context(), traces, now, hindsight.Options{Kept: kept(was)})
				require.NoError(b, err)
				decisions += report.Decisions
			}
			b.ReportMetric(float64(decisions)/b.Elapsed().Seconds(), "decisions/s")
		})
	}
}
