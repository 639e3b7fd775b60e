package hindsight

import (
	"cmp"
	"math"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/history/trace"
)

// worker asks about whole jobs and keeps count.
type worker struct {
	report  Report
	moves   moves
	classes map[lessons.Class]*Tally
	sets    *keptSets
	now     *rules.Set
	was     map[string]*before
	again   retelling
	words   *trace.Words
	reader  *trace.Reader
	facts   *trace.Facts
	sheet   trace.Sheet
	// past is the job that is being asked about.
	past past
	// err ends the work.
	err error
}

func newWorker(set *rules.Set, sets *keptSets) *worker {
	words := trace.NewWords()
	return &worker{
		moves: moves{}, classes: map[lessons.Class]*Tally{}, sets: sets, was: map[string]*before{}, now: set,
		report: Report{Unfollowed: map[string]int{}},
		again:  newRetelling(set, words), words: words, reader: trace.NewReader(words), facts: trace.NewFacts(words),
		past: past{reader: trace.NewReader(words)},
	}
}

func (w *worker) jobs(rows []history.Traced) {
	jobsIn(rows, func(job []history.Traced) bool {
		if w.err = w.past.begin(job); w.err == nil {
			w.err = w.job(job)
		}
		return w.err == nil
	})
}

func (w *worker) job(job []history.Traced) error {
	for i := range job {
		if trace.KindOf(job[i].Trace) != history.KindDecision {
			continue
		}
		if err := w.decision(&job[i]); err != nil {
			return err
		}
	}
	return nil
}

// decision asks about one decision, panel by panel: the sheets of one panel stand together.
func (w *worker) decision(t *history.Traced) error {
	d, err := w.reader.Decision(t.Trace, w.facts)
	if err != nil {
		return unreadable(t, err)
	}
	if d.Sheets == 0 {
		return nil
	}
	w.report.Decisions++
	w.again.was = w.wasAsker(d.RuleSet)
	sheet := &w.sheet
	panel, some := "", false
	for w.reader.Sheet(sheet, w.facts) {
		if some && sheet.Panel != panel {
			if err := w.panel(t, &d, panel); err != nil {
				return err
			}
			some = false
		}
		if !some {
			panel, some = sheet.Panel, true
			w.again.begin()
		}
		w.again.sheet(sheet, w.facts)
	}
	if err := w.reader.Err(); err != nil {
		return unreadable(t, err)
	}
	return w.panel(t, &d, panel)
}

func (w *worker) wasAsker(hash string) *before {
	was, known := w.was[hash]
	if !known {
		if set := w.sets.get(hash); set != nil {
			was = newBefore(set, w.now, w.words)
		}
		w.was[hash] = was
	}
	return was
}

// panel counts what was asked about one panel of one decision.
func (w *worker) panel(e *history.Traced, d *trace.Outline, panel string) error {
	class, err := w.past.class(panel, e.Sequence)
	if err != nil {
		return err
	}
	class.Shade = ""
	tally := w.classes[class]
	if tally == nil {
		tally = &Tally{}
		w.classes[class] = tally
	}
	w.report.Panels++
	tally.Panels++
	if d.Trial == 0 {
		w.report.Advice++
	} else {
		w.report.Verdicts++
	}
	for _, field := range w.again.carried.lost() {
		w.report.Unfollowed[field]++
	}
	if w.again.unknownSet {
		w.report.UnknownSets++
	}
	at := Example{Job: e.Job, Panel: panel, Event: e.Sequence}
	if d.Trial == 0 {
		return w.advice(tally, at)
	}
	return w.verdict(tally, at, d.Trial)
}

func (w *worker) advice(t *Tally, at Example) error {
	old, is := &w.again.old, &w.again.new
	w.differ(&t.Starts, "start", old.Start, is.Start, at)
	w.differ(&t.Limits, "limit", old.Limit, is.Limit, at)
	w.differ(&t.Readiness, "readiness", old.Effect, is.Effect, at)
	w.differ(&t.Ladders, "ladder", old.Ladder, is.Ladder, at)
	if old.Ladder == is.Ladder && !slices.Equal(old.Settings, is.Settings) {
		t.Settings++
		w.moves.note("settings", "", "", at)
	}
	if !sameRules(old.Cautions, is.Cautions) {
		t.Cautions++
		w.moves.note("cautions", "", "", at)
	}
	if old.First() == is.First() {
		return nil
	}
	course, err := w.past.course(at.Panel, at.Event)
	if err != nil || course == nil || course.Advice != at.Event {
		return err
	}
	t.count(judge(course, old.First(), is.First(), &w.again.likely))
	return nil
}

func (w *worker) verdict(t *Tally, at Example, trial int64) error {
	old, is := w.again.old.Verdict, w.again.new.Verdict
	if !w.differ(&t.Verdicts, "verdict", old, is, at) {
		return nil
	}
	course, err := w.past.course(at.Panel, at.Event)
	if err != nil || course == nil {
		return err
	}
	t.count(judgeVerdict(course, trial, old, is))
	return nil
}

func (w *worker) differ(count *int, table, was, is string, at Example) bool {
	if was == is {
		return false
	}
	*count++
	w.moves.note(table, was, is, at)
	return true
}

func sameRules(a, b []string) bool {
	return slices.Equal(a, b) || len(a) == len(b) && !slices.ContainsFunc(a, func(id string) bool { return !slices.Contains(b, id) })
}

func (t *Tally) count(j judgement) {
	switch j.speaks {
	case ForNew:
		t.ForNew++
	case ForOld:
		t.ForOld++
	case ForNeither:
		t.Neither++
	default:
		t.Open++
		return
	}
	t.Trials, t.Timed = t.Trials+j.trials, t.Timed+j.timed
	t.Minutes, t.FilmUm = t.Minutes+exact(j.minutes), t.FilmUm+exact(j.filmUm)
}

// exact rounds to a fraction that adds up to the same whatever the order: workers share the jobs as they come.
func exact(v float64) float64 { return math.Round(v*1024) / 1024 }

// merge takes over what another worker counted.
func (w *worker) merge(o *worker) {
	w.report.Decisions, w.report.Panels = w.report.Decisions+o.report.Decisions, w.report.Panels+o.report.Panels
	w.report.Advice, w.report.Verdicts = w.report.Advice+o.report.Advice, w.report.Verdicts+o.report.Verdicts
	w.report.UnknownSets += o.report.UnknownSets
	w.again.now.strange += o.again.now.strange
	for field, n := range o.report.Unfollowed {
		w.report.Unfollowed[field] += n
	}
	for key, move := range o.moves {
		mine := w.moves[key]
		if mine == nil {
			w.moves[key] = move
			continue
		}
		mine.Panels += move.Panels
		mine.Examples = append(mine.Examples, move.Examples...)
		slices.SortFunc(mine.Examples, func(a, b Example) int {
			return cmp.Or(cmp.Compare(a.Job, b.Job), cmp.Compare(a.Event, b.Event), cmp.Compare(a.Panel, b.Panel))
		})
		mine.Examples = mine.Examples[:min(mostExamples, len(mine.Examples))]
	}
	for class, tally := range o.classes {
		if w.classes[class] == nil {
			w.classes[class] = &Tally{}
		}
		w.classes[class].add(tally)
	}
}

// finish makes the report of what was counted.
func (w *worker) finish(sets *keptSets) *Report {
	out := &w.report
	out.Sets, out.Strange, out.Moves = len(sets.sets), w.again.now.strange, w.moves.sorted()
	for class, tally := range w.classes {
		out.All.add(tally)
		if tally.Changed() > 0 {
			out.Classes = append(out.Classes, ClassReport{class, *tally})
		}
	}
	slices.SortFunc(out.Classes, byChange)
	return out
}
