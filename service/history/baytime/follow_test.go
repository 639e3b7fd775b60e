package baytime_test

import (
	"context"
	"errors"
	"iter"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/baytime"
)

func at(day, hour int) time.Time { return time.Date(2026, time.March, day, hour, 0, 0, 0, time.UTC) }

func block(piece string, day, from, to int) history.BayBlock {
	return history.BayBlock{Piece: piece, Start: at(day, from), End: at(day, to)}
}

func bay(id string, blocks ...history.BayBlock) *history.Bay {
	return &history.Bay{ID: id, Blocks: blocks}
}

// told makes events of bodies, an hour apart.
func told(job string, bodies ...history.Body) []history.Event {
	var out []history.Event
	for i, body := range bodies {
		out = append(out, history.Event{Job: job, Sequence: int64(i + 1), RecordedAt: at(1, i), Body: body})
	}
	return out
}

func booked(details history.Details) history.Body {
	return &history.Booked{Vehicle: "estate", Details: details}
}

func TestAMoveKeepsTheEntries(t *testing.T) {
	first := history.Details{Label: "spring", Bay: bay("bay-1", block("polish", 27, 13, 17), block("polish", 30, 8, 10), block("finish", 30, 10, 12))}
	moved := history.Details{Label: "spring", Bay: bay("bay-2", block("polish", 28, 13, 17), block("polish", 30, 8, 10), block("finish", 30, 10, 12))}
	before := baytime.Follow(told("spring", booked(first)))
	after := baytime.Follow(told("spring", booked(first), &history.Details{Label: "spring", Bay: moved.Bay}))
	require.Len(t, before, 3)
	require.Len(t, after, 3)
	for i := range before {
		assert.Equal(t, before[i].UID, after[i].UID)
		assert.Equal(t, 0, before[i].Sequence)
		assert.Equal(t, 1, after[i].Sequence, "another bay is another place")
		assert.Equal(t, "bay-2", after[i].Bay)
	}
	assert.NotEqual(t, before[0].UID, before[1].UID)
	assert.Equal(t, at(28, 13), after[0].Start)
}

func TestOnlyWhatChangesRises(t *testing.T) {
	blocks := func(day int) *history.Bay {
		return bay("bay-1", block("polish", day, 13, 17), block("finish", 30, 10, 12))
	}
	entries := baytime.Follow(told("spring", booked(history.Details{Bay: blocks(27)}), &history.Details{Bay: blocks(28)}))
	assert.Equal(t, 1, entries[0].Sequence)
	assert.Equal(t, at(1, 1), entries[0].Changed)
	assert.Equal(t, 0, entries[1].Sequence)
	assert.Equal(t, at(1, 0), entries[1].Changed, "what stays is left alone")

	entries = baytime.Follow(told("spring", booked(history.Details{Bay: blocks(27)}), &history.Details{Label: "for the fair", Bay: blocks(27)}))
	assert.Equal(t, 0, entries[0].Sequence, "another name is no other time")
	assert.Equal(t, at(1, 1), entries[0].Changed)
	assert.Equal(t, "for the fair: polish", entries[0].Title)
}

func TestWhatIsOffIsCancelled(t *testing.T) {
	one := &history.Details{Bay: bay("bay-1", block("polish", 27, 13, 17))}
	for _, row := range []struct {
		name   string
		bodies []history.Body
		seq    int
		off    bool
	}{
		{"no bay time any more", []history.Body{booked(*one), &history.Details{}}, 1, true},
		{"another piece in its place", []history.Body{booked(*one), &history.Details{Bay: bay("bay-1", block("finish", 27, 13, 17))}}, 1, true},
		{"the job is cancelled", []history.Body{booked(*one), &history.Cancelled{}}, 1, true},
		{"the end is withdrawn", []history.Body{booked(*one), &history.Cancelled{}, &history.Correction{Sequence: 2, Why: "the wrong job"}}, 2, false},
		{"booked again", []history.Body{booked(*one), &history.Details{}, one}, 2, false},
		{"a correction of something else", []history.Body{booked(*one), &history.Correction{Sequence: 1, Why: "typed"}}, 0, false},
		{"cancelled stays so, whatever is changed", []history.Body{booked(*one), &history.Cancelled{}, &history.Details{Label: "late", Bay: one.Bay}}, 1, true},
		{"finished takes place", []history.Body{booked(*one), &history.Finished{}, &history.HandedOver{}}, 0, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			entries := baytime.Follow(told("spring", row.bodies...))
			assert.Equal(t, row.seq, entries[0].Sequence)
			assert.Equal(t, row.off, entries[0].Cancelled)
		})
	}
}

// A sequence never falls and never stays while time, place or whether it takes place change, whatever is booked in whatever order.
func TestTheSequenceRisesWithEveryChange(t *testing.T) {
	var bodies []history.Body
	bodies = append(bodies, booked(history.Details{}))
	var last map[string]baytime.Entry
	for i := range 200 {
		next := &history.Details{}
		if i%7 != 3 {
			next.Bay = bay([]string{"bay-1", "bay-2"}[i/5%2], block("polish", 10+i%3, 8, 9+i%4), block("polish", 20+i%2, 8, 12))
		}
		bodies = append(bodies, next)
		now := map[string]baytime.Entry{}
		for _, entry := range baytime.Follow(told("spring", bodies...)) {
			was, there := last[entry.UID]
			same := was.Start.Equal(entry.Start) && was.End.Equal(entry.End) && was.Bay == entry.Bay && was.Cancelled == entry.Cancelled
			switch {
			case there && same:
				require.Equal(t, was.Sequence, entry.Sequence, "step %d", i)
			case there:
				require.Equal(t, was.Sequence+1, entry.Sequence, "step %d", i)
			}
			now[entry.UID] = entry
		}
		for uid := range last {
			require.Contains(t, now, uid, "an entry never vanishes")
		}
		last = now
	}
	assert.Len(t, last, 2)
}

func TestNamesAreApart(t *testing.T) {
	many := history.Details{Bay: bay("bay-1", block("Prüfen, kleben", 27, 8, 9), block("—", 27, 9, 10), block("polish", 27, 10, 11), block("Polish!", 27, 11, 12))}
	seen := map[string]bool{}
	for _, entry := range baytime.Follow(told("spring", booked(many))) {
		assert.Regexp(t, `^spring\.[a-z0-9-]+\.\d\.[0-9a-z]+@glossladder$`, entry.UID)
		seen[entry.UID] = true
	}
	assert.Len(t, seen, 4)
}

// record is a record of events.
type record struct {
	events []history.Event
	fails  error
}

func (r record) Scan(_ context.Context, query history.ScanQuery) iter.Seq2[history.Event, error] {
	return func(yield func(history.Event, error) bool) {
		for _, e := range r.events {
			for _, kind := range query.Kinds {
				if e.Body.Kind() == kind && !yield(e, nil) {
					return
				}
			}
		}
		if r.fails != nil {
			yield(history.Event{}, r.fails)
		}
	}
}

func TestABayHoldsWhatIsBookedInIt(t *testing.T) {
	late := told("late", booked(history.Details{Bay: bay("bay-1", block("polish", 30, 8, 12))}), &history.Finished{})
	early := told("early", booked(history.Details{Bay: bay("bay-1", block("polish", 27, 8, 12))}))
	gone := told("gone", booked(history.Details{Bay: bay("bay-1", block("polish", 28, 8, 12))}), &history.Details{Bay: bay("bay-2", block("polish", 28, 8, 12))})
	off := told("off", booked(history.Details{Bay: bay("bay-1", block("polish", 29, 8, 12))}), &history.Cancelled{})
	past := told("past", booked(history.Details{Bay: bay("bay-1", block("polish", 2, 8, 12))}))
	all := record{events: append(append(append(append(late, early...), gone...), off...), past...)}
	entries, err := baytime.In(t.Context(), all, "bay-1", at(3, 0))
	require.NoError(t, err)
	var jobs []string
	for _, entry := range entries {
		jobs = append(jobs, entry.Job)
	}
	assert.Equal(t, []string{"early", "off", "late"}, jobs)
	assert.True(t, entries[1].Cancelled)

	all.fails = errors.New("away")
	_, err = baytime.In(t.Context(), all, "bay-1", at(3, 0))
	require.ErrorIs(t, err, all.fails)
}
