package calendar_test

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zone of the test, on machines without a database of zones

	"github.com/emersion/go-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/calendar"
)

func berlin(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	return zone
}

func entry(t testing.TB) calendar.Entry {
	t.Helper()
	zone := berlin(t)
	return calendar.Entry{
		UID: "jobs-7-1@shop.example", Changed: time.Date(2026, 3, 20, 9, 0, 0, 0, zone),
		Start: time.Date(2026, 3, 27, 13, 0, 0, 0, zone), End: time.Date(2026, 3, 27, 17, 0, 0, 0, zone),
		Summary: "dark blue estate: polish",
	}
}

// read parses with another library than the one that wrote.
func read(t testing.TB, src []byte) []ical.Event {
	t.Helper()
	got, err := ical.NewDecoder(bytes.NewReader(src)).Decode()
	require.NoError(t, err)
	return got.Events()
}

func encoded(t testing.TB, entries ...calendar.Entry) []byte {
	t.Helper()
	out, err := calendar.Encode("bay 1", entries)
	require.NoError(t, err)
	return out
}

func TestCalendarAsText(t *testing.T) {
	assert.Equal(t, strings.Join([]string{
		"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Glossladder//bay time//EN", "METHOD:PUBLISH", "X-WR-CALNAME:bay 1",
		"BEGIN:VEVENT", "UID:jobs-7-1@shop.example", "DTSTAMP:20260320T080000Z", "LAST-MODIFIED:20260320T080000Z", "SEQUENCE:0",
		"DTSTART:20260327T120000Z", "DTEND:20260327T160000Z", "SUMMARY:dark blue estate: polish", "STATUS:CONFIRMED", "END:VEVENT",
		"END:VCALENDAR", "",
	}, "\r\n"), string(encoded(t, entry(t))))
}

// RFC 5545 3.1: lines end with CRLF and are no longer than 75 octets; 3.3.11: backslash, semicolon, comma and line end are escaped. A
// fold never falls inside a letter.
func TestBytes(t *testing.T) {
	e := entry(t)
	e.Summary = `cut; polish, finish \ "show"`
	e.Description = strings.Repeat("Motorhaube über Nacht aushärten lassen — 20 °C. ", 12) + "\nsecond line"
	src := encoded(t, e)
	for line := range strings.SplitSeq(strings.TrimSuffix(string(src), "\r\n"), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, line)
		assert.NotContains(t, line, "\n")
		assert.NotContains(t, line, "\r")
		assert.Equal(t, line, strings.ToValidUTF8(line, ""), "a letter is cut in two")
	}
	assert.Contains(t, string(src), `SUMMARY:cut\; polish\, finish \\ "show"`)

	got := read(t, src)[0]
	summary, err := got.Props.Text(ical.PropSummary)
	require.NoError(t, err)
	assert.Equal(t, e.Summary, summary)
	description, err := got.Props.Text(ical.PropDescription)
	require.NoError(t, err)
	assert.Equal(t, e.Description, description)
}

// Blocks on both sides of the change to summer time keep their times by the wall clock of the shop.
func TestTimesAcrossSummerTime(t *testing.T) {
	zone := berlin(t)
	before, after := entry(t), entry(t)
	after.UID, after.Start, after.End = "jobs-7-2@shop.example", time.Date(2026, 3, 30, 8, 0, 0, 0, zone), time.Date(2026, 3, 30, 12, 0, 0, 0, zone)
	got := read(t, encoded(t, before, after))
	require.Len(t, got, 2)
	for i, want := range []calendar.Entry{before, after} {
		start, err := got[i].DateTimeStart(zone)
		require.NoError(t, err)
		end, err := got[i].DateTimeEnd(zone)
		require.NoError(t, err)
		assert.True(t, want.Start.Equal(start), "%v, not %v", want.Start, start)
		assert.True(t, want.End.Equal(end), "%v, not %v", want.End, end)
		assert.Equal(t, want.Start.Hour(), start.In(zone).Hour())
	}
}

// A block that is moved is the same entry with a higher sequence; one that is off says so.
func TestAMovedEntryIsTheSameEntry(t *testing.T) {
	moved := entry(t)
	moved.Start, moved.End, moved.Sequence = moved.Start.Add(24*time.Hour), moved.End.Add(24*time.Hour), 1
	was, is := read(t, encoded(t, entry(t)))[0], read(t, encoded(t, moved))[0]
	assert.Equal(t, was.Props.Get(ical.PropUID).Value, is.Props.Get(ical.PropUID).Value)
	assert.Equal(t, "0", was.Props.Get(ical.PropSequence).Value)
	assert.Equal(t, "1", is.Props.Get(ical.PropSequence).Value)

	moved.Cancelled = true
	status, err := read(t, encoded(t, moved))[0].Status()
	require.NoError(t, err)
	assert.Equal(t, ical.EventCancelled, status)
}

// A calendar has at least one part, RFC 5545 3.6: one without entries names the zone of its times, and readers take it.
func TestAnEmptyCalendarIsWhole(t *testing.T) {
	src := encoded(t)
	got, err := ical.NewDecoder(bytes.NewReader(src)).Decode()
	require.NoError(t, err)
	assert.Empty(t, got.Events())
	require.Len(t, got.Children, 1)
	assert.Equal(t, ical.CompTimezone, got.Children[0].Name)
	assert.NoError(t, ical.NewEncoder(io.Discard).Encode(got), "the reader checks what it writes")
}

func TestEntriesThatCannotBe(t *testing.T) {
	for _, row := range []struct {
		change func(*calendar.Entry)
		says   string
	}{
		{func(e *calendar.Entry) { e.UID = "" }, `calendar entry "" needs a UID of visible ASCII letters`},
		{func(e *calendar.Entry) { e.UID = "a b" }, "needs a UID of visible ASCII letters"},
		{func(e *calendar.Entry) { e.End = e.Start }, "does not end after it starts"},
		{func(e *calendar.Entry) { e.Summary = "" }, "has no summary"},
		{func(e *calendar.Entry) { e.Summary = "a\r\nATTACH:x" }, "summary holds the control character U+000D"},
		{func(e *calendar.Entry) { e.Description = "\xff" }, "description is not UTF-8"},
		{func(e *calendar.Entry) { e.Sequence = -1 }, "has the sequence -1; it starts at 0"},
		{func(e *calendar.Entry) { e.Changed = time.Time{} }, "has no time of its last change"},
	} {
		e := entry(t)
		row.change(&e)
		_, err := calendar.Encode("", []calendar.Entry{e})
		require.ErrorContains(t, err, row.says)
	}
	_, err := calendar.Encode("", []calendar.Entry{entry(t), entry(t)})
	require.ErrorContains(t, err, "is there twice")
}

func FuzzEncodeIsReadBack(f *testing.F) {
	f.Add("polish", "line one\nline two; and, \\ more")
	f.Add("ä", strings.Repeat("°", 100))
	f.Fuzz(func(t *testing.T, summary, description string) {
		e := entry(t)
		e.Summary, e.Description = summary, description
		src, err := calendar.Encode("", []calendar.Entry{e})
		if err != nil {
			return
		}
		got, err := read(t, src)[0].Props.Text(ical.PropSummary)
		require.NoError(t, err)
		require.Equal(t, summary, got)
		if description != "" {
			got, err = read(t, src)[0].Props.Text(ical.PropDescription)
			require.NoError(t, err)
			require.Equal(t, description, got)
		}
	})
}
