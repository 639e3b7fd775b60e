package lessons

import (
	"iter"
	"reflect"
	"slices"

	"github.com/glossladder/glossladder/service/history"
)

// Records are the outcomes of a shop's jobs. They may be read by several goroutines at once, and changed by one that is alone.
type Records struct {
	jobs map[string][]Outcome
	// starts are the first steps of proven ladders, by job.
	starts map[string][]start
}

// start is a panel that proved a ladder.
type start struct {
	class Class // without a step
	step  string
}

// NewRecords has none.
func NewRecords() *Records {
	return &Records{jobs: map[string][]Outcome{}, starts: map[string][]start{}}
}

// Put takes over what the events of one job say, in the place of what they said before: after one more event, the events of its
// job are all that is read again. The events are whole and in order. It reports whether anything is otherwise than before.
func (r *Records) Put(job string, events []history.Event) (changed bool) {
	courses := Courses(events)
	var out []Outcome
	var starts []start
	for i := range courses {
		out = courses[i].tell(out)
		if step, proven := courses[i].Proven(); proven {
			starts = append(starts, start{courses[i].Class, step})
		}
	}
	if reflect.DeepEqual(r.jobs[job], out) && slices.Equal(r.starts[job], starts) {
		return false
	}
	delete(r.jobs, job)
	delete(r.starts, job)
	if len(out) > 0 {
		r.jobs[job] = out
	}
	if len(starts) > 0 {
		r.starts[job] = starts
	}
	return true
}

// Starts gives how many panels of a class proved a ladder that starts with each step, a finish first.
func (r *Records) Starts(of Class) iter.Seq2[string, int] {
	count := map[string]int{}
	for _, starts := range r.starts {
		for _, s := range starts {
			if of.Covers(s.class) {
				count[s.step]++
			}
		}
	}
	return func(yield func(string, int) bool) {
		for _, step := range []string{"finish", "polish", "cut"} {
			if !yield(step, count[step]) {
				return
			}
		}
	}
}

// Read takes over all jobs of a scan, which gives the events of one job after another. It stops at the first error.
func (r *Records) Read(scan iter.Seq2[history.Event, error]) error {
	var events []history.Event
	for e, err := range scan {
		if err != nil {
			return err
		}
		if len(events) > 0 && events[0].Job != e.Job {
			r.Put(events[0].Job, events)
			events = events[:0]
		}
		events = append(events, e)
	}
	if len(events) > 0 {
		r.Put(events[0].Job, events)
	}
	return nil
}

// All gives every outcome, job by job in order of id.
func (r *Records) All() iter.Seq[*Outcome] {
	return func(yield func(*Outcome) bool) {
		ids := make([]string, 0, len(r.jobs))
		for id := range r.jobs {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		for _, id := range ids {
			for i := range r.jobs[id] {
				if !yield(&r.jobs[id][i]) {
					return
				}
			}
		}
	}
}

// Of gives the outcomes of one job. They are not to be changed.
func (r *Records) Of(job string) []Outcome { return r.jobs[job] }

// Jobs is how many jobs have an outcome.
func (r *Records) Jobs() int { return len(r.jobs) }
