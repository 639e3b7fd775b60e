package history

import (
	"encoding/json"
	"fmt"
)

// version is the version of every body's shape. A body whose shape changes so that an earlier program would misread it gets a
// higher one, and [Decode] learns to read both.
const version = 1

// Encode gives a body as it is stored.
func Encode(body Body) (kind Kind, v int, data []byte, err error) {
	data, err = json.Marshal(body)
	if err != nil {
		return "", 0, nil, fmt.Errorf("encode %s: %w", body.Kind(), err)
	}
	return body.Kind(), version, data, nil
}

// Decode reads a body as it was stored. It refuses kinds and versions that only a later program writes; fields it does not
// know it passes over.
func Decode(kind Kind, v int, data []byte) (Body, error) {
	if v != version {
		return nil, fmt.Errorf("%s is of version %d, and this program reads %d; use a later program", kind, v, version)
	}
	body := empty(kind)
	if body == nil {
		return nil, fmt.Errorf("%q is no kind of event that this program knows; use a later program", kind)
	}
	if err := json.Unmarshal(data, body); err != nil {
		return nil, fmt.Errorf("%s: %w", kind, err)
	}
	return body, nil
}

func empty(kind Kind) Body {
	switch kind {
	case KindBooked:
		return &Booked{}
	case KindDetails:
		return &Details{}
	case KindInspection:
		return &Inspection{}
	case KindReadings:
		return &Readings{}
	case KindTrial:
		return &Trial{}
	case KindDecision:
		return &Decision{}
	case KindPlan:
		return &Plan{}
	case KindProgress:
		return &Progress{}
	case KindFinished:
		return &Finished{}
	case KindHandedOver:
		return &HandedOver{}
	case KindCancelled:
		return &Cancelled{}
	case KindCorrection:
		return &Correction{}
	}
	return nil
}

// storedCorrection is a correction as it is stored: what holds instead carries its own kind and version.
type storedCorrection struct {
	Sequence int64          `json:"sequence"`
	Why      string         `json:"why"`
	Instead  *storedInstead `json:"instead,omitempty"`
}

type storedInstead struct {
	Kind    Kind            `json:"kind"`
	Version int             `json:"version"`
	Body    json.RawMessage `json:"body"`
}

// MarshalJSON keeps what holds instead with its kind.
func (c *Correction) MarshalJSON() ([]byte, error) {
	stored := storedCorrection{Sequence: c.Sequence, Why: c.Why}
	if c.Instead != nil {
		kind, v, body, err := Encode(c.Instead)
		if err != nil {
			return nil, err
		}
		stored.Instead = &storedInstead{Kind: kind, Version: v, Body: body}
	}
	return json.Marshal(stored)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (c *Correction) UnmarshalJSON(data []byte) error {
	var stored storedCorrection
	if err := json.Unmarshal(data, &stored); err != nil {
		return err
	}
	*c = Correction{Sequence: stored.Sequence, Why: stored.Why}
	if stored.Instead == nil {
		return nil
	}
	var err error
	c.Instead, err = Decode(stored.Instead.Kind, stored.Instead.Version, stored.Instead.Body)
	return err
}
