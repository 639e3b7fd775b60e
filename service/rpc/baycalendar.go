package rpc

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"unicode"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/calendar"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/baytime"
)

// bays is the collection of bays.
const bays = "bays"

// GetBayCalendar gives what is booked in a bay as an iCalendar file.
func (s *BookingServer) GetBayCalendar(ctx context.Context, req *glossladderv1.GetBayCalendarRequest) (*glossladderv1.Calendar, error) {
	var wrong faults
	id := wrong.id("name", bays, req.GetName())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.jobs.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	entries, err := baytime.In(ctx, store, id, s.jobs.now().Add(-keepPast))
	if err != nil {
		return nil, statusOf(err, "")
	}
	return calendarOf(id, entries)
}

func ofJob(job *history.Job) []baytime.Entry { return baytime.Follow(job.Events()) }

// calendarOf writes entries. The same entries are the same bytes.
func calendarOf(name string, entries []baytime.Entry) (*glossladderv1.Calendar, error) {
	out := make([]calendar.Entry, len(entries))
	for i, e := range entries {
		out[i] = calendar.Entry{
			UID: e.UID, Sequence: e.Sequence, Changed: e.Changed, Start: e.Start, End: e.End, Summary: oneLine(e.Title),
			Description: "Job " + e.Job, Location: e.Bay, Cancelled: e.Cancelled,
		}
	}
	ics, err := calendar.Encode(oneLine(name), out)
	if err != nil {
		return nil, statusOf(err, "")
	}
	sum := sha256.Sum256(ics)
	return &glossladderv1.Calendar{Ics: string(ics), Etag: hex.EncodeToString(sum[:12])}, nil
}

// oneLine is a text without what no calendar may hold, so that one odd label spoils no calendar.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, text)
}
