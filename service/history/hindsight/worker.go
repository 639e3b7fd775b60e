package hindsight

import (
	"cmp"
	"math"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
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
}

func newWorker(set *rules.Set, sets *keptSets) *worker {
	return &worker{
		moves: moves{}, classes: map[lessons.Class]*Tally{}, sets: sets, was: map[string]*before{}, now: set,
		report: Report{Unfollowed: map[string]int{}},
		again:  retelling{now: newAsker(set), over: map[string]any{}},
	}
}

func (w *worker) job(events []history.Event) {
	var courses []lessons.Course // told when the first answer changes
	told := false
	for i := range events {
		decision, ok := events[i].Body.(*history.Decision)
		if !ok || len(decision.Sheets) == 0 {
			continue
		}
		w.report.Decisions++
		w.again.was = w.wasAsker(decision.RuleSet)
		for from := 0; from < len(decision.Sheets); {
			to := from + 1
			for to < len(decision.Sheets) && decision.Sheets[to].Panel == decision.Sheets[from].Panel {
				to++
			}
			if !told {
				courses, told = lessons.Courses(events), true
			}
			w.panel(&events[i], decision, decision.Sheets[from:to], courses)
			from = to
		}
	}
}

func (w *worker) wasAsker(hash string) *before {
	was, known := w.was[hash]
	if !known {
		if set := w.sets.get(hash); set != nil {
			was = newBefore(set, w.now)
		}
		w.was[hash] = was
	}
	return was
}

// panel asks about one panel of one decision.
func (w *worker) panel(e *history.Event, d *history.Decision, sheets []history.FactSheet, courses []lessons.Course) {
	w.again.panel(sheets)
	course := courseOf(courses, sheets[0].Panel, e.Sequence)
	class := lessons.Class{}
	if course != nil {
		class = course.Class
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
	at := Example{Job: e.Job, Panel: sheets[0].Panel, Event: e.Sequence}
	if d.Trial == 0 {
		w.advice(tally, at, course)
	} else {
		w.verdict(tally, at, course, d.Trial)
	}
}

// courseOf is the course that a decision belongs to; nil when the panel was not inspected before.
func courseOf(courses []lessons.Course, panel string, decision int64) *lessons.Course {
	var out *lessons.Course
	for i := range courses {
		if c := &courses[i]; c.Panel == panel && c.Inspection < decision && (out == nil || c.Inspection > out.Inspection) {
			out = c
		}
	}
	return out
}

func (w *worker) advice(t *Tally, at Example, course *lessons.Course) {
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
	if old.First() == is.First() || course == nil || course.Advice != at.Event {
		return
	}
	t.count(judge(course, old.First(), is.First(), &w.again.likely))
}

func (w *worker) verdict(t *Tally, at Example, course *lessons.Course, trial int64) {
	old, is := w.again.old.Verdict, w.again.new.Verdict
	if !w.differ(&t.Verdicts, "verdict", old, is, at) || course == nil {
		return
	}
	t.count(judgeVerdict(course, trial, old, is))
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
	return len(a) == len(b) && !slices.ContainsFunc(a, func(id string) bool { return !slices.Contains(b, id) })
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
