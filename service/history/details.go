package history

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// Details are the parts of a job that may be changed by hand, as an event the new values of all of them.
type Details struct {
	// Label is what the shop calls the job. Empty: nothing.
	Label string `json:"label,omitempty"`
	// Notes are for the shop's own use.
	Notes string `json:"notes,omitempty"`
	// BookedFor is when the vehicle is expected. Zero: not agreed.
	BookedFor time.Time `json:"booked_for,omitzero"`
	// Bay is the bay time. Nil: none is booked. Lists of jobs leave it out.
	Bay *Bay `json:"bay,omitempty"`
}

// Kind is [KindDetails].
func (*Details) Kind() Kind { return KindDetails }

func (d *Details) check() error {
	errs := []error{checkText("label", d.Label, 100), checkText("notes", d.Notes, 2000)}
	if d.Bay != nil {
		errs = append(errs, d.Bay.check())
	}
	return errors.Join(errs...)
}

// Booked is the first event of every job.
type Booked struct {
	// Vehicle is the id of the vehicle.
	Vehicle string `json:"vehicle"`
	Details
}

// Kind is [KindBooked].
func (*Booked) Kind() Kind { return KindBooked }

func (b *Booked) check() error { return errors.Join(CheckID("vehicle", b.Vehicle), b.Details.check()) }

// maxID is the longest id of a vehicle or a job.
const maxID = 60

// CheckID returns a [*InputError] for an id that is not of small letters, digits and single hyphens, up to 60.
func CheckID(field, id string) error {
	bad := id == "" || len(id) > maxID || strings.HasPrefix(id, "-") || strings.HasSuffix(id, "-") || strings.Contains(id, "--")
	for _, c := range []byte(id) {
		bad = bad || (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-'
	}
	if bad {
		return &InputError{Field: field, Says: fmt.Sprintf("%q is no id; an id is of small letters, digits and single hyphens, up to %d", id, maxID)}
	}
	return nil
}

// checkText refuses what not every store can keep.
func checkText(field, text string, most int) error {
	switch n := utf8.RuneCountInString(text); {
	case n > most:
		return &InputError{Field: field, Says: fmt.Sprintf("has %d characters, allowed are up to %d", n, most)}
	case !utf8.ValidString(text):
		return &InputError{Field: field, Says: "is no valid UTF-8 text"}
	case strings.ContainsRune(text, 0):
		return &InputError{Field: field, Says: "contains a NUL character; take it out"}
	}
	return nil
}
