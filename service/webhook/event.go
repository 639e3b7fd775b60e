package webhook

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"time"
)

// Event is something that happened, in the words of CloudEvents 1.0.
type Event struct {
	ID      string          // unique within Source
	Source  string          // who tells it, a URI-reference: /shops/main
	Type    string          // what happened, as com.example.job.planned
	Subject string          // what it is about, as jobs/7; "" for nothing in particular
	Time    time.Time       // when it happened
	Data    json.RawMessage // JSON; nil for none
}

// ContentType is that of a structured event.
const ContentType = "application/cloudevents+json"

// envelope is the structured JSON form, CloudEvents JSON event format 1.0, section 3.
type envelope struct {
	SpecVersion     string          `json:"specversion"`
	ID              string          `json:"id"`
	Source          string          `json:"source"`
	Type            string          `json:"type"`
	Subject         string          `json:"subject,omitempty"`
	Time            string          `json:"time,omitempty"`
	DataContentType string          `json:"datacontenttype,omitempty"`
	Data            json.RawMessage `json:"data,omitempty"`
}

// Structured is the event as it is sent. The error names the attribute that the specification does not allow so.
func (e Event) Structured() ([]byte, error) {
	for _, need := range []struct{ name, value string }{{"id", e.ID}, {"source", e.Source}, {"type", e.Type}} {
		if need.value == "" {
			return nil, fmt.Errorf("event has no %s", need.name)
		}
	}
	if _, err := url.Parse(e.Source); err != nil {
		return nil, fmt.Errorf("event source %q is no URI-reference: %w", e.Source, err)
	}
	out := envelope{SpecVersion: "1.0", ID: e.ID, Source: e.Source, Type: e.Type, Subject: e.Subject, Data: e.Data}
	if !e.Time.IsZero() {
		out.Time = e.Time.UTC().Format(time.RFC3339Nano)
	}
	if e.Data != nil {
		if !json.Valid(e.Data) {
			return nil, errors.New("event data is not JSON")
		}
		out.DataContentType = "application/json"
	}
	return json.Marshal(out)
}
