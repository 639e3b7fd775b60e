package hindsight

import (
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// ownTraces gives each event that was stored without a trace its trace.
func ownTraces(job []history.Traced) error {
	for i := range job {
		t := &job[i]
		if t.Trace != nil {
			continue
		}
		body, err := history.Decode(t.Kind, t.Version, t.Body)
		if err != nil {
			return &history.UnreadableError{Job: t.Job, Sequence: t.Sequence, Says: err.Error()}
		}
		t.Trace = trace.Of(body)
	}
	return nil
}

// eventsOf makes events of the traces of a job, with what a trace has.
func eventsOf(job []history.Traced, r *trace.Reader, to []history.Event) ([]history.Event, error) {
	for i := range job {
		body, err := r.Body(job[i].Trace)
		if err != nil {
			return to, unreadable(&job[i], err)
		}
		to = append(to, history.Event{Job: job[i].Job, Sequence: job[i].Sequence, Body: body})
	}
	return to, nil
}

func unreadable(t *history.Traced, err error) error {
	return &history.UnreadableError{Job: t.Job, Sequence: t.Sequence, Says: err.Error()}
}

// jobsIn gives the jobs of rows that stand in order.
func jobsIn(rows []history.Traced, each func(job []history.Traced) bool) {
	for from := 0; from < len(rows); {
		to := from + 1
		for to < len(rows) && rows[to].Job == rows[from].Job {
			to++
		}
		if !each(rows[from:to]) {
			return
		}
		from = to
	}
}
