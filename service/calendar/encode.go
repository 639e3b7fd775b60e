package calendar

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
)

// Entry is one stretch of time in a calendar.
type Entry struct {
	// UID names the entry for ever: a calendar that has it already changes its own instead of adding one.
	UID string
	// Sequence rises with every change of the time or the place, RFC 5545 3.8.7.4.
	Sequence int
	// Changed is when it was last changed; it stands for the time stamp as well, so that the same state is the same bytes.
	Changed     time.Time
	Start, End  time.Time
	Summary     string
	Description string
	Location    string
	// Cancelled tells calendars to strike it out.
	Cancelled bool
}

// product names the writer, RFC 5545 3.7.3.
const product = "-//Glossladder//bay time//EN"

// EntryError tells which entry cannot be written.
type EntryError struct {
	UID  string
	Says string
}

func (e *EntryError) Error() string { return fmt.Sprintf("calendar entry %q %s", e.UID, e.Says) }

// Encode is a calendar of the entries: bytes with CRLF line ends, folded at 75 octets. Times are written in UTC, which every
// calendar shows in its own zone, whatever summer time does. The error is an [*EntryError].
func Encode(name string, entries []Entry) ([]byte, error) {
	if err := checkText("", "name", name); err != nil {
		return nil, err
	}
	out := ics.NewCalendarFor("")
	out.SetProductId(product)
	out.SetMethod(ics.MethodPublish)
	if name != "" {
		out.SetXWRCalName(name)
	}
	seen := map[string]bool{}
	for _, e := range entries {
		if seen[e.UID] {
			return nil, &EntryError{e.UID, "is there twice"}
		}
		seen[e.UID] = true
		if err := e.check(); err != nil {
			return nil, err
		}
		out.AddVEvent(e.event())
	}
	if len(entries) == 0 {
		universal(out)
	}
	var b strings.Builder
	if err := out.SerializeTo(&b, ics.WithNewLineWindows); err != nil {
		return nil, fmt.Errorf("write calendar: %w", err)
	}
	return []byte(b.String()), nil
}

// universal puts the time zone of all times into a calendar that holds nothing else: it needs one part at least, RFC 5545 3.6.
func universal(in *ics.Calendar) {
	const offset = "+0000"
	standard := ics.NewStandard()
	standard.SetProperty(ics.ComponentPropertyDtStart, "19700101T000000")
	standard.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetfrom), offset)
	standard.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetto), offset)
	zone := in.AddTimezone("UTC")
	zone.Components = append(zone.Components, standard)
}

func (e Entry) event() *ics.VEvent {
	event := ics.NewEvent(e.UID)
	event.SetDtStampTime(e.Changed)
	event.SetModifiedAt(e.Changed)
	event.SetSequence(e.Sequence)
	event.SetStartAt(e.Start)
	event.SetEndAt(e.End)
	event.SetSummary(e.Summary)
	if e.Description != "" {
		event.SetDescription(e.Description)
	}
	if e.Location != "" {
		event.SetLocation(e.Location)
	}
	event.SetStatus(ics.ObjectStatusConfirmed)
	if e.Cancelled {
		event.SetStatus(ics.ObjectStatusCancelled)
	}
	return event
}

func (e Entry) check() error {
	switch {
	case e.UID == "" || strings.ContainsFunc(e.UID, func(r rune) bool { return r <= ' ' || r > '~' }):
		return &EntryError{e.UID, "needs a UID of visible ASCII letters"}
	case e.Sequence < 0:
		return &EntryError{e.UID, fmt.Sprintf("has the sequence %d; it starts at 0", e.Sequence)}
	case e.Changed.IsZero():
		return &EntryError{e.UID, "has no time of its last change"}
	case !e.End.After(e.Start):
		return &EntryError{e.UID, "does not end after it starts"}
	case e.Summary == "":
		return &EntryError{e.UID, "has no summary"}
	}
	for _, text := range []struct{ field, value string }{{"summary", e.Summary}, {"description", e.Description}, {"location", e.Location}} {
		if err := checkText(e.UID, text.field, text.value); err != nil {
			return err
		}
	}
	return nil
}

// checkText refuses what no calendar text may hold: control characters but line ends, and bytes that are no UTF-8.
func checkText(uid, field, text string) error {
	if !utf8.ValidString(text) {
		return &EntryError{uid, field + " is not UTF-8"}
	}
	if i := strings.IndexFunc(text, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' || r == 0x7f }); i >= 0 {
		return &EntryError{uid, fmt.Sprintf("%s holds the control character %U", field, text[i])}
	}
	return nil
}
