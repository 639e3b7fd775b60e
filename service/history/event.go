package history

import (
	"encoding/json"
	"time"
)

// Kind says what an event tells. The words are stored and never change their meaning.
type Kind string

// The kinds of event.
const (
	KindBooked     Kind = "booked"
	KindDetails    Kind = "details"
	KindInspection Kind = "inspection"
	KindReadings   Kind = "readings"
	KindTrial      Kind = "trial"
	KindDecision   Kind = "decision"
	KindPlan       Kind = "plan"
	KindProgress   Kind = "progress"
	KindFinished   Kind = "finished"
	KindHandedOver Kind = "handed-over"
	KindCancelled  Kind = "cancelled"
	KindCorrection Kind = "correction"
)

// Event is one thing that happened in a job. Once stored it never changes.
type Event struct {
	// Job is the id of the job.
	Job string
	// Sequence is its place in the job, from 1 without gaps. This is the order of events, not a time.
	Sequence int64
	// RecordedAt is when it was recorded, UTC in whole microseconds, never before the event before it.
	RecordedAt time.Time
	// HappenedAt is when it happened, as whoever recorded it says. Zero: when it was recorded.
	HappenedAt time.Time
	// By is who recorded it, as the shop says it. Empty: not said.
	By string
	// RequestID is the request that it came with. Empty: none.
	RequestID string
	// Body is what happened, in the terms of this package.
	Body Body
	// Document is the message of the contract that the body was made from, as protobuf JSON; of a correction, the message
	// that holds in its place. Nil: the body holds everything, or the reader left documents out.
	Document json.RawMessage
	// CorrectedBy is the sequence of the correction that this event's body was taken from. It is not stored: [Effective]
	// sets it.
	CorrectedBy int64
}

// Happened is when it happened as far as anybody can tell.
func (e *Event) Happened() time.Time {
	if e.HappenedAt.IsZero() {
		return e.RecordedAt
	}
	return e.HappenedAt
}

// Body is what an event tells. The bodies are [Booked], [Details], [Inspection], [Readings], [Trial], [Decision], [Plan],
// [Progress], [Finished], [HandedOver], [Cancelled] and [Correction], each as a pointer.
type Body interface {
	Kind() Kind
	// check complains about what could never be right, whatever the job: a [*InputError] for each fault, joined.
	check() error
}

// Moment is a time as events keep it: UTC, whole microseconds, which both stores keep exactly.
func Moment(t time.Time) time.Time {
	if t.IsZero() {
		return time.Time{}
	}
	return t.UTC().Truncate(time.Microsecond)
}
