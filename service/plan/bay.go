package plan

import (
	"errors"
	"fmt"
	"slices"
	"time"
)

// Hours are when a bay is open on one day, in minutes from midnight by the wall clock.
type Hours struct{ FromMin, ToMin int }

// Opening is when a bay is open.
type Opening struct {
	// Week is the hours of each weekday, Sunday first, in order and apart; none for a day that is closed.
	Week [7][]Hours
	// Closed are days on which it stays shut; only year, month and day count.
	Closed []time.Time
	// Zone is the shop's time zone; opening hours follow its wall clock through changes to and from summer time.
	Zone *time.Location
}

// Piece is work that is done in a row, and how long the vehicle then has to stand: a finish that cures, paint that cools.
// Work stops when the bay closes and goes on when it opens; standing goes on day and night.
type Piece struct {
	Name    string
	WorkMin int
	WaitMin int
}

// Block is one stretch of bay time.
type Block struct {
	Piece      string
	Start, End time.Time
}

// ErrClosed means that the bay does not open within a year.
var ErrClosed = errors.New("the bay does not open within a year")

// Check returns what is wrong with the hours.
func (o Opening) Check() error {
	if o.Zone == nil {
		return errors.New("opening hours need a time zone, as Europe/Berlin")
	}
	for day, hours := range o.Week {
		last := 0
		for _, h := range hours {
			if h.FromMin < last || h.ToMin <= h.FromMin || h.ToMin > 24*60 {
				return fmt.Errorf("hours of %s are %s to %s; give them in order, apart, and within a day",
					time.Weekday(day), clock(h.FromMin), clock(h.ToMin))
			}
			last = h.ToMin
		}
	}
	return nil
}

func clock(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60) }

// Blocks lays pieces of work into the hours of a bay, from start on, one after another. The error is [ErrClosed], or what is
// wrong with the hours or the pieces.
func Blocks(start time.Time, opening Opening, pieces []Piece) ([]Block, error) {
	return BlocksAround(start, opening, Taken{}, pieces)
}

// BlocksAround is [Blocks] in a bay that others have booked: work is laid into what they leave free.
func BlocksAround(start time.Time, opening Opening, taken Taken, pieces []Piece) ([]Block, error) {
	if err := opening.Check(); err != nil {
		return nil, err
	}
	at := start.In(opening.Zone)
	var worked time.Time
	var out []Block
	for _, p := range pieces {
		if p.WorkMin < 0 || p.WaitMin < 0 || p.WorkMin > MostMinutes || p.WaitMin > longestWaitMin {
			return nil, fmt.Errorf("%s: work of %d min and %d min of waiting; allowed is 0 to %d and 0 to %d",
				p.Name, p.WorkMin, p.WaitMin, MostMinutes, longestWaitMin)
		}
		left := time.Duration(p.WorkMin) * time.Minute
		for left > 0 {
			from, to, ok := taken.next(opening, at, worked)
			if !ok {
				return nil, ErrClosed
			}
			end := from.Add(min(left, to.Sub(from)))
			out = append(out, Block{Piece: p.Name, Start: from, End: end})
			left -= end.Sub(from)
			at, worked = end, end
		}
		at = at.Add(time.Duration(p.WaitMin) * time.Minute)
	}
	return out, nil
}

// longestWaitMin is a month: what cures longer is another visit.
const longestWaitMin = 31 * 24 * 60

// next is the first stretch of opening at or after a time.
func (o Opening) next(at time.Time) (from, to time.Time, ok bool) {
	at = at.In(o.Zone)
	for day := range 366 {
		date := time.Date(at.Year(), at.Month(), at.Day()+day, 12, 0, 0, 0, o.Zone) // noon: midnight may not exist
		if o.closed(date) {
			continue
		}
		for _, h := range o.Week[date.Weekday()] {
			from, to = wall(date, h.FromMin), wall(date, h.ToMin)
			if from.Before(at) {
				from = at
			}
			if from.Before(to) {
				return from, to, true
			}
		}
	}
	return from, to, false
}

// wall is a time of the wall clock on a date.
func wall(date time.Time, minutes int) time.Time {
	return time.Date(date.Year(), date.Month(), date.Day(), minutes/60, minutes%60, 0, 0, date.Location())
}

func (o Opening) closed(date time.Time) bool {
	return slices.ContainsFunc(o.Closed, func(c time.Time) bool {
		return c.Year() == date.Year() && c.YearDay() == date.YearDay()
	})
}
