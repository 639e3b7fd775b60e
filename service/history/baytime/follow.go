package baytime

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// Entry is one stretch of bay time as calendars know it.
type Entry struct {
	// UID names it for ever: the job, the piece of work and its place among the job's blocks of that piece, with the moment at
	// which the job was made, so that two shops that both have a job "spring" do not meet in one calendar.
	UID string
	// Sequence rises whenever its time, its bay or whether it takes place changes (RFC 5545, 3.8.7.4).
	Sequence int
	// Changed is when anything of it last changed.
	Changed time.Time
	Job     string
	// Title is what the job is called and what is done.
	Title      string
	Bay        string
	Start, End time.Time
	// Cancelled says that it does not take place.
	Cancelled bool
}

// Follow gives the entries of one job, in the order in which they first came up. The events are all of the job, in order; those
// other than its details, its end and corrections may be left out.
func Follow(events []history.Event) []Entry {
	f := &follower{known: map[string]int{}}
	for i := range events {
		f.hear(&events[i])
	}
	return f.entries
}

// follower is a job's bay time so far.
type follower struct {
	made    time.Time
	details history.Details
	// ended is the event that cancelled the job; 0: none did, or it was withdrawn.
	ended   int64
	entries []Entry
	known   map[string]int // where in entries, by UID
}

func (f *follower) hear(e *history.Event) {
	switch body := e.Body.(type) {
	case *history.Booked:
		f.made, f.details = e.RecordedAt, body.Details
	case *history.Details:
		f.details = *body
	case *history.Cancelled:
		f.ended = e.Sequence
	case *history.Correction:
		if body.Sequence != f.ended {
			return
		}
		f.ended = 0
	default:
		return
	}
	f.settle(e)
}

// settle brings the entries to what is booked after an event.
func (f *follower) settle(e *history.Event) {
	booked := map[string]bool{}
	if f.details.Bay != nil && f.ended == 0 {
		count := map[string]int{}
		for _, block := range f.details.Bay.Blocks {
			piece := slug(block.Piece)
			count[piece]++
			uid := fmt.Sprintf("%s.%s.%d.%s@glossladder", e.Job, piece, count[piece], strconv.FormatInt(f.made.UnixMicro(), 36))
			booked[uid] = true
			f.book(uid, block, e)
		}
	}
	for i := range f.entries {
		if entry := &f.entries[i]; !booked[entry.UID] && !entry.Cancelled {
			entry.Cancelled, entry.Sequence, entry.Changed = true, entry.Sequence+1, e.RecordedAt
		}
	}
}

// book makes an entry, or changes the one of the name.
func (f *follower) book(uid string, block history.BayBlock, e *history.Event) {
	next := Entry{
		UID: uid, Changed: e.RecordedAt, Job: e.Job, Title: f.title(e.Job) + ": " + block.Piece,
		Bay: f.details.Bay.ID, Start: block.Start, End: block.End,
	}
	at, known := f.known[uid]
	if !known {
		f.known[uid] = len(f.entries)
		f.entries = append(f.entries, next)
		return
	}
	was := &f.entries[at]
	next.Sequence = was.Sequence
	if was.Cancelled || was.Bay != next.Bay || !was.Start.Equal(next.Start) || !was.End.Equal(next.End) {
		next.Sequence++
	} else if was.Title == next.Title {
		return // nothing of it has changed
	}
	*was = next
}

func (f *follower) title(job string) string {
	if f.details.Label != "" {
		return f.details.Label
	}
	return job
}

// slug is a piece of work as a part of a name.
func slug(piece string) string {
	var b strings.Builder
	for _, c := range strings.ToLower(piece) {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			b.WriteRune(c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	if out := strings.TrimSuffix(b.String(), "-"); out != "" {
		return out
	}
	return "work"
}
