package history

import (
	"errors"
	"slices"
)

// Correction says that an earlier event is wrong and what holds in its place.
type Correction struct {
	// Sequence is the event that is wrong; never that of a correction.
	Sequence int64
	Why      string
	// Instead is what holds in its place, of the same kind. Nil: nothing does; the event is withdrawn.
	Instead Body
}

// Kind is [KindCorrection].
func (*Correction) Kind() Kind { return KindCorrection }

func (c *Correction) check() error {
	errs := []error{checkText("correction.why", c.Why, 500)}
	if c.Why == "" {
		errs = append(errs, &InputError{Field: "correction.why", Says: "is missing; say what was wrong"})
	}
	if c.Sequence < 1 {
		errs = append(errs, &InputError{Field: "correction.sequence", Says: "is missing; name the event that is wrong"})
	}
	if c.Instead != nil {
		errs = append(errs, c.Instead.check())
	}
	return errors.Join(errs...)
}

// correctable is what may be replaced; withdrawable is what may be withdrawn. The rest is said anew: details by details, a plan
// by a plan, advice by advice.
func correctable(k Kind) bool {
	return slices.Contains([]Kind{KindInspection, KindReadings, KindTrial, KindProgress}, k)
}

func withdrawable(k Kind) bool {
	return correctable(k) || slices.Contains([]Kind{KindPlan, KindFinished, KindHandedOver, KindCancelled}, k)
}

// Effective returns the events as they hold: each corrected one with the body and the document of its latest correction,
// withdrawn ones and corrections left out. The events given are those of one job in order, and are not changed.
func Effective(events []Event) []Event {
	latest := map[int64]*Event{}
	for i := range events {
		if c, ok := events[i].Body.(*Correction); ok {
			latest[c.Sequence] = &events[i]
		}
	}
	out := make([]Event, 0, len(events))
	for _, e := range events {
		if e.Body.Kind() == KindCorrection {
			continue
		}
		if by, ok := latest[e.Sequence]; ok {
			c, isCorrection := by.Body.(*Correction)
			if !isCorrection || c.Instead == nil {
				continue
			}
			e.Body, e.Document, e.CorrectedBy = c.Instead, by.Document, by.Sequence
		}
		out = append(out, e)
	}
	return out
}

// span is from an event that was corrected to its correction.
type span struct{ from, to int64 }

func within(spans []span, sequence int64) bool {
	return slices.ContainsFunc(spans, func(s span) bool { return s.from < sequence && sequence < s.to })
}

// voidIn finds, by panel, where decisions rest on what was corrected later, be it replaced or withdrawn.
func voidIn(events []Event) map[string][]span {
	var out map[string][]span
	for i := range events {
		c, ok := events[i].Body.(*Correction)
		if !ok || c.Sequence < 1 || c.Sequence > int64(i) {
			continue
		}
		for _, panel := range decidedBy(events[c.Sequence-1].Body) {
			if out == nil {
				out = map[string][]span{}
			}
			out[panel] = append(out[panel], span{c.Sequence, events[i].Sequence})
		}
	}
	return out
}

// decidedBy are the panels that are decided about on the strength of a body.
func decidedBy(body Body) (panels []string) {
	switch body := body.(type) {
	case *Inspection:
		for _, found := range body.Panels {
			panels = append(panels, found.ID)
		}
	case *Trial:
		panels = []string{body.Panel}
	case *Readings:
		if body.When == Before {
			panels = []string{body.Panel}
		}
	}
	return panels
}
