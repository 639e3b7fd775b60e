package transcript

import (
	"fmt"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// LineError tells of a line that cannot be taken in.
type LineError struct {
	// Line counts from 1.
	Line int
	Says string
}

func (e *LineError) Error() string { return fmt.Sprintf("line %d: %s", e.Line, e.Says) }

// Reader reads the lines of one job. Its zero value is ready.
type Reader struct {
	lines int
	job   string
	ended bool
	out   Transcript
	state *history.Job
}

// Add reads one line. A mistake is a [*LineError]; the reader is then good for nothing more.
func (r *Reader) Add(text []byte) error {
	r.lines++
	l, err := readLine(text)
	if err != nil {
		return r.wrong("%v", err)
	}
	switch {
	case r.ended:
		return r.wrong("the transcript has ended before it")
	case r.job == "":
		return r.begin(l)
	case l.Vehicle != nil:
		return r.vehicle(l.Vehicle)
	case l.RuleSet != nil:
		r.out.RuleSets = append(r.out.RuleSets, RuleSet{Hash: l.RuleSet.Hash, Files: []byte(l.RuleSet.Files)})
		return nil
	case l.Event != nil:
		return r.event(l.Event)
	case l.End != nil:
		return r.end(l.End)
	}
	return r.wrong("another transcript begins before this one has ended")
}

// Transcript is what was read, once its last line was. Before that it is a [*LineError]: a part is never taken for the whole.
func (r *Reader) Transcript() (*Transcript, error) {
	if !r.ended {
		return nil, &LineError{Line: r.lines + 1, Says: "the transcript breaks off here; its last line tells how many events there are"}
	}
	return &r.out, nil
}

// Ended reports whether the last line of the transcript was read.
func (r *Reader) Ended() bool { return r.ended }

func (r *Reader) wrong(format string, args ...any) error {
	return &LineError{Line: r.lines, Says: fmt.Sprintf(format, args...)}
}

func (r *Reader) begin(l *line) error {
	switch {
	case l.Transcript == 0:
		return r.wrong("a transcript of a job begins with {\"transcript\":%d,\"job\":…}", form)
	case l.Transcript != form:
		return r.wrong("the transcript is of version %d, and this program reads %d; use a later program", l.Transcript, form)
	}
	if err := history.CheckID("job", l.Job); err != nil {
		return r.wrong("%v", err)
	}
	r.job, r.state = l.Job, &history.Job{}
	return nil
}

func (r *Reader) vehicle(v *vehicleLine) error {
	out := history.Vehicle{
		ID: v.ID, Revision: v.Revision, CreatedAt: history.Moment(v.CreatedAt), UpdatedAt: history.Moment(v.UpdatedAt), Label: v.Label, VehicleTraits: v.VehicleTraits,
	}
	switch err := out.Check(); {
	case r.out.Vehicle.ID != "":
		return r.wrong("the vehicle is told twice")
	case err != nil:
		return r.wrong("%s", oneLine(err))
	case out.Revision < 1:
		return r.wrong("the vehicle's revision is %d, and it counts from 1", out.Revision)
	case !sane(out.CreatedAt) || !sane(out.UpdatedAt):
		return r.wrong("the vehicle does not say when it was made and changed")
	}
	r.out.Vehicle = out
	return nil
}

// event adds an event as it was recorded. It was allowed when it was; one that would not have been was never recorded.
func (r *Reader) event(l *eventLine) error {
	e, err := l.event(r.job)
	if err != nil {
		return r.wrong("%v", err)
	}
	switch booked, first := e.Body.(*history.Booked); {
	case r.out.Vehicle.ID == "":
		return r.wrong("the vehicle comes before the events")
	case e.Sequence != int64(len(r.out.Events))+1:
		return r.wrong("event %d is followed by event %d; one is missing or out of place", len(r.out.Events), e.Sequence)
	case first && booked.Vehicle != r.out.Vehicle.ID:
		return r.wrong("the job is of vehicle %s, and the transcript tells of %s", booked.Vehicle, r.out.Vehicle.ID)
	case !sane(e.RecordedAt) || e.RecordedAt.Before(r.state.UpdatedAt):
		return r.wrong("event %d was recorded before the event before it, or it does not say when", e.Sequence)
	}
	if err := r.state.Allows(e.Body); err != nil {
		return r.wrong("%s", oneLine(err))
	}
	r.out.Events = append(r.out.Events, e)
	r.state = history.Replay(r.out.Events)
	return nil
}

func (r *Reader) end(l *endLine) error {
	if n := int64(len(r.out.Events)); n == 0 || n != l.Events {
		return r.wrong("the transcript has %d events, and had %d when it was written", n, l.Events)
	}
	r.ended = true
	return nil
}

// sane is a time that stores can keep.
func sane(t time.Time) bool { return t.Year() >= 1970 && t.Year() < 10000 }

func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }
