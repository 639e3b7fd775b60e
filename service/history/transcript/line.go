package transcript

import (
	"bytes"
	"encoding/json"
	"fmt"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// form is the version of the lines' shape.
const form = 1

// line is one line: exactly one of its fields is set.
type line struct {
	Transcript int          `json:"transcript,omitempty"`
	Job        string       `json:"job,omitempty"` // with Transcript
	Vehicle    *vehicleLine `json:"vehicle,omitempty"`
	RuleSet    *ruleSetLine `json:"rule_set,omitempty"`
	Event      *eventLine   `json:"event,omitempty"`
	End        *endLine     `json:"end,omitempty"`
}

type vehicleLine struct {
	ID        string    `json:"id"`
	Revision  int64     `json:"revision"`
	CreatedAt time.Time `json:"created_at"`
	UpdatedAt time.Time `json:"updated_at"`
	Label     string    `json:"label"`
	history.VehicleTraits
}

type ruleSetLine struct {
	Hash  string `json:"hash"`
	Files string `json:"files"`
}

type eventLine struct {
	Sequence   int64           `json:"sequence"`
	RecordedAt time.Time       `json:"recorded_at"`
	HappenedAt time.Time       `json:"happened_at,omitzero"`
	By         string          `json:"recorded_by,omitempty"`
	RequestID  string          `json:"request_id,omitempty"`
	Kind       history.Kind    `json:"kind"`
	Version    int             `json:"version"`
	Body       json.RawMessage `json:"body"`
	Document   json.RawMessage `json:"document,omitempty"`
}

type endLine struct {
	Events int64 `json:"events"`
}

// write gives a line as text, without its end.
func (l *line) write() ([]byte, error) {
	var out bytes.Buffer
	to := json.NewEncoder(&out)
	to.SetEscapeHTML(false) // readings are written as they are
	if err := to.Encode(l); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), nil
}

// readLine reads one line. A field that is not known was written by a later program, and passing over it would lose something.
func readLine(text []byte) (*line, error) {
	var l line
	from := json.NewDecoder(bytes.NewReader(text))
	from.DisallowUnknownFields()
	if err := from.Decode(&l); err != nil {
		return nil, err
	}
	if from.More() {
		return nil, fmt.Errorf("there is more than one object on it")
	}
	set := 0
	for _, given := range []bool{l.Transcript != 0, l.Vehicle != nil, l.RuleSet != nil, l.Event != nil, l.End != nil} {
		if given {
			set++
		}
	}
	if set != 1 {
		return nil, fmt.Errorf("it is no line of a transcript")
	}
	return &l, nil
}

func lineOf(e *history.Event) (*line, error) {
	kind, version, body, err := history.Encode(e.Body)
	if err != nil {
		return nil, err
	}
	return &line{Event: &eventLine{
		Sequence: e.Sequence, RecordedAt: e.RecordedAt, HappenedAt: e.HappenedAt, By: e.By, RequestID: e.RequestID,
		Kind: kind, Version: version, Body: body, Document: e.Document,
	}}, nil
}

func (e *eventLine) event(job string) (history.Event, error) {
	body, err := history.Decode(e.Kind, e.Version, e.Body)
	if err != nil {
		return history.Event{}, err
	}
	return history.Event{
		Job: job, Sequence: e.Sequence, RecordedAt: history.Moment(e.RecordedAt), HappenedAt: history.Moment(e.HappenedAt),
		By: e.By, RequestID: e.RequestID, Body: body, Document: e.Document,
	}, nil
}
