package notify

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/webhook"
)

// TypeOf is what an event of a kind is called: glossladder.job.booked. It is "" for a kind that nobody is told of.
func TypeOf(kind history.Kind) string {
	for _, row := range [...]struct {
		kind history.Kind
		name string
	}{
		{history.KindBooked, "booked"},
		{history.KindDetails, "changed"},
		{history.KindPlan, "planned"},
		{history.KindFinished, "finished"},
		{history.KindHandedOver, "handed_over"},
		{history.KindCancelled, "cancelled"},
	} {
		if row.kind == kind {
			return "glossladder.job." + row.name
		}
	}
	return ""
}

// data is what an event says: enough to know whether it matters, and what to ask for. Names and values are those of the JSON API.
type data struct {
	Job      string     `json:"job"`
	Vehicle  string     `json:"vehicle"`
	Stage    string     `json:"stage"`
	Label    string     `json:"label"`
	BookTime *time.Time `json:"book_time"`
	Sequence int64      `json:"sequence"`
}

// body is the event of a telling: the job as that event left it, so that it says the same at every try.
func body(ctx context.Context, store history.Jobs, source string, t history.Telling) ([]byte, error) {
	job, e, err := jobAt(ctx, store, t.Job, t.Sequence)
	if err != nil {
		return nil, err
	}
	says := data{
		Job: "jobs/" + job.ID, Vehicle: "vehicles/" + job.Vehicle, Label: job.Label, Sequence: t.Sequence,
		Stage: "JOB_STAGE_" + strings.ToUpper(strings.ReplaceAll(string(job.Stage), "-", "_")),
	}
	if !job.BookedFor.IsZero() {
		says.BookTime = &job.BookedFor
	}
	text, err := json.Marshal(says)
	if err != nil {
		return nil, fmt.Errorf("event %d of job %s: %w", t.Sequence, t.Job, err)
	}
	return webhook.Event{
		ID: fmt.Sprintf("%s/%d", t.Job, t.Sequence), Source: source, Type: TypeOf(e.Body.Kind()), Subject: "jobs/" + t.Job,
		Time: e.RecordedAt, Data: text,
	}.Structured()
}

// jobAt is a job as one of its events left it, and that event.
func jobAt(ctx context.Context, store history.Jobs, id string, sequence int64) (*history.Job, *history.Event, error) {
	var events []history.Event
	for int64(len(events)) < sequence {
		page, err := store.Events(ctx, id, int64(len(events)), int(min(sequence-int64(len(events)), history.MostOnPage)))
		if err != nil {
			return nil, nil, err
		}
		if len(page) == 0 {
			return nil, nil, &history.NotFoundError{What: "event", ID: fmt.Sprintf("%d of job %s", sequence, id)}
		}
		events = append(events, page...)
	}
	return history.Replay(events), &events[sequence-1], nil
}
