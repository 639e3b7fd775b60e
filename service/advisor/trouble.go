package advisor

import (
	"fmt"
	"strings"
)

// Trouble is what is wrong with one field of an inspection or a trial, beyond its own bounds.
type Trouble struct {
	// Field is its path, as in the contract: "panels[2].film[0]".
	Field string
	// Says names the value and the way out.
	Says string
}

// InputError is everything that is wrong with an inspection or its trials, in order.
type InputError struct{ Troubles []Trouble }

func (e *InputError) Error() string {
	lines := make([]string, len(e.Troubles))
	for i, t := range e.Troubles {
		lines[i] = t.Field + ": " + t.Says
	}
	return strings.Join(lines, "; ")
}

// RulesError is a rule set that answers in a way that the guards forbid, such as a ladder stronger than the limit. The
// rule is named so that its author can mend it.
type RulesError struct {
	Reason Reason
	Says   string
}

func (e *RulesError) Error() string {
	if e.Reason.Rule == "" {
		return fmt.Sprintf("table %s: %s", e.Reason.Table, e.Says)
	}
	return fmt.Sprintf("%s:%d: rule %s: %s", e.Reason.File, e.Reason.Line, e.Reason.Rule, e.Says)
}

// troubles collects what is wrong; nil is nothing.
type troubles []Trouble

func (t *troubles) add(field string, err error) {
	*t = append(*t, Trouble{Field: field, Says: err.Error()})
}

func (t troubles) asError() error {
	if len(t) == 0 {
		return nil
	}
	return &InputError{Troubles: t}
}
