package plan_test

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
)

func TestWorkFlowsAroundWhatIsBooked(t *testing.T) {
	bay := weekdays(t)
	at := func(hour, minute int) time.Time { return time.Date(2026, 6, 1, hour, minute, 0, 0, bay.Zone) } // a Monday
	taken := func(stretches ...plan.Stretch) plan.Taken {
		return plan.Taken{Stretches: stretches, Shortest: 30 * time.Minute}
	}
	polish := []plan.Piece{{Name: "polish", WorkMin: 120}}
	for _, row := range []struct {
		name   string
		taken  plan.Taken
		pieces []plan.Piece
		want   []string
	}{
		{"a bay that is free", taken(), polish, []string{"polish Mon 1 Jun 08:00 to Mon 1 Jun 10:00 CEST"}},
		{"the morning is taken", taken(plan.Stretch{at(8, 0), at(12, 0)}), polish, []string{"polish Mon 1 Jun 13:00 to Mon 1 Jun 15:00 CEST"}},
		{"an hour between is used", taken(plan.Stretch{at(9, 0), at(11, 0)}), polish, []string{
			"polish Mon 1 Jun 08:00 to Mon 1 Jun 09:00 CEST", "polish Mon 1 Jun 11:00 to Mon 1 Jun 12:00 CEST",
		}},
		{
			"five minutes in which another vehicle cools are not", taken(plan.Stretch{at(8, 0), at(10, 0)}, plan.Stretch{at(10, 5), at(12, 0)}), polish,
			[]string{"polish Mon 1 Jun 13:00 to Mon 1 Jun 15:00 CEST"},
		},
		{
			"nor a quarter of an hour before the bay closes", taken(plan.Stretch{at(8, 0), at(11, 45)}), polish,
			[]string{"polish Mon 1 Jun 13:00 to Mon 1 Jun 15:00 CEST"},
		},
		{
			"bookings that overlap count once", taken(plan.Stretch{at(7, 0), at(9, 0)}, plan.Stretch{at(8, 0), at(8, 30)}, plan.Stretch{at(8, 45), at(10, 0)}), polish,
			[]string{"polish Mon 1 Jun 10:00 to Mon 1 Jun 12:00 CEST"},
		},
		{
			"what ends as it begins is in nobody's way", taken(plan.Stretch{at(6, 0), at(8, 0)}, plan.Stretch{at(10, 0), at(12, 0)}), polish,
			[]string{"polish Mon 1 Jun 08:00 to Mon 1 Jun 10:00 CEST"},
		},
		{
			"a vehicle that is in the bay uses the rest of it", taken(plan.Stretch{at(9, 10), at(17, 0)}),
			[]plan.Piece{{Name: "polish", WorkMin: 55, WaitMin: 5}, {Name: "finish", WorkMin: 20}},
			[]string{
				"polish Mon 1 Jun 08:00 to Mon 1 Jun 08:55 CEST", "finish Mon 1 Jun 09:00 to Mon 1 Jun 09:10 CEST",
				"finish Tue 2 Jun 08:00 to Tue 2 Jun 08:10 CEST",
			},
		},
		{"a day that is taken whole", taken(plan.Stretch{at(0, 0), at(24, 0)}), polish, []string{"polish Tue 2 Jun 08:00 to Tue 2 Jun 10:00 CEST"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			blocks, err := plan.BlocksAround(at(8, 0), bay, row.taken, row.pieces)
			require.NoError(t, err)
			assert.Equal(t, row.want, stretches(blocks))
		})
	}
}

// Whatever is booked, work gets its minutes, in open hours, past the start and beside every booking.
func TestWorkNeverMeetsABooking(t *testing.T) {
	bay := weekdays(t)
	bay.Closed = []time.Time{time.Date(2026, 3, 30, 0, 0, 0, 0, bay.Zone)}
	start := time.Date(2026, 3, 27, 9, 20, 0, 0, bay.Zone) // summer time begins on the Sunday
	dice := rand.New(rand.NewPCG(5, 7))
	for range 2000 {
		taken := plan.Taken{Shortest: time.Duration(dice.IntN(60)) * time.Minute}
		for range dice.IntN(12) {
			from := start.Add(time.Duration(dice.IntN(14*24*60)-120) * time.Minute)
			taken.Stretches = append(taken.Stretches, plan.Stretch{Start: from, End: from.Add(time.Duration(1+dice.IntN(2000)) * time.Minute)})
		}
		slices.SortFunc(taken.Stretches, func(a, b plan.Stretch) int { return a.Start.Compare(b.Start) })
		pieces := []plan.Piece{{Name: "polish", WorkMin: dice.IntN(900), WaitMin: dice.IntN(90)}, {Name: "finish", WorkMin: 1 + dice.IntN(900)}}
		blocks, err := plan.BlocksAround(start, bay, taken, pieces)
		require.NoError(t, err)
		last, minutes := start, 0
		for _, b := range blocks {
			require.False(t, b.Start.Before(last), "%v after %v", b, last)
			require.True(t, b.Start.Before(b.End))
			for _, s := range taken.Stretches {
				require.False(t, b.Start.Before(s.End) && s.Start.Before(b.End), "%v meets %v", b, s)
			}
			from, to, ok := plan.NextOpen(bay, b.Start)
			require.True(t, ok)
			require.True(t, from.Equal(b.Start), "%v is not open", b.Start)
			require.False(t, b.End.After(to), "%v goes on past %v", b, to)
			last, minutes = b.End, minutes+int(b.End.Sub(b.Start).Minutes())
		}
		require.Equal(t, pieces[0].WorkMin+pieces[1].WorkMin, minutes)
	}
}
