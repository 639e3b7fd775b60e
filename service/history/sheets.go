package history

import (
	"encoding/json"
	"maps"
)

// storedDecision is a decision as it is stored: of the facts of each sheet only what differs from the sheet before it. Tables are
// asked one after another with nearly the same facts, and whole sheets would be most of what a shop stores.
type storedDecision struct {
	plainDecision
	Sheets []storedSheet `json:"sheets,omitempty"`
}

// plainDecision is a decision without its way into JSON.
type plainDecision Decision

type storedSheet struct {
	Panel string `json:"panel"`
	About string `json:"about,omitempty"`
	// Facts are those that are new or other than before; one that is null is no longer known.
	Facts   map[string]any `json:"facts,omitempty"`
	Answers []TableAnswer  `json:"answers,omitempty"`
}

// MarshalJSON keeps of each sheet what differs from the one before.
func (d *Decision) MarshalJSON() ([]byte, error) {
	stored := storedDecision{plainDecision: plainDecision(*d)}
	var before map[string]any
	for _, sheet := range d.Sheets {
		stored.Sheets = append(stored.Sheets, storedSheet{
			Panel: sheet.Panel, About: sheet.About, Facts: differing(before, sheet.Facts), Answers: sheet.Answers,
		})
		before = sheet.Facts
	}
	return json.Marshal(stored)
}

// UnmarshalJSON makes the sheets whole again.
func (d *Decision) UnmarshalJSON(data []byte) error {
	var stored storedDecision
	if err := json.Unmarshal(data, &stored); err != nil {
		return err
	}
	*d = Decision(stored.plainDecision)
	d.Sheets = nil
	var before map[string]any
	for _, sheet := range stored.Sheets {
		before = applied(before, sheet.Facts)
		d.Sheets = append(d.Sheets, FactSheet{Panel: sheet.Panel, About: sheet.About, Facts: before, Answers: sheet.Answers})
	}
	return nil
}

func differing(before, now map[string]any) map[string]any {
	out := map[string]any{}
	for name, value := range now {
		if was, known := before[name]; !known || !same(was, value) {
			out[name] = value
		}
	}
	for name := range before {
		if _, known := now[name]; !known {
			out[name] = nil
		}
	}
	return out
}

// same compares what a fact may be; anything else is never the same, and is refused elsewhere.
func same(a, b any) bool {
	switch a.(type) {
	case float64, string, bool:
		return a == b
	}
	return false
}

func applied(before, differing map[string]any) map[string]any {
	out := make(map[string]any, len(before)+len(differing))
	maps.Copy(out, before)
	for name, value := range differing {
		if value == nil {
			delete(out, name)
			continue
		}
		out[name] = value
	}
	return out
}
