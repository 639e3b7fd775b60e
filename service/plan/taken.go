package plan

import "time"

// Stretch is a time at which the bay is somebody else's.
type Stretch struct{ Start, End time.Time }

// Taken is what is booked in a bay already. The zero value is a bay that is free.
type Taken struct {
	// Stretches are by start. They may overlap.
	Stretches []Stretch
	// Shortest is how long the bay has to be free between bookings, or between one and the closing of the bay, for a vehicle to be
	// brought in. Shorter gaps, as where another vehicle only cools, are left alone.
	Shortest time.Duration
}

// next is the first stretch at or after a time at which the bay is open and free. Since is when the vehicle was last worked in it;
// zero before the first time.
func (t Taken) next(opening Opening, at, since time.Time) (from, to time.Time, ok bool) {
	for {
		from, to, ok = opening.next(at)
		if !ok {
			return from, to, false
		}
		closes := to
		var beside bool
		from, to, beside = t.clip(from, to)
		switch {
		case !from.Before(closes):
			at = from
		case beside && to.Sub(from) < t.Shortest && !t.stays(since, from):
			at = to
		default:
			return from, to, true
		}
	}
}

// clip cuts from an open stretch what is taken of its beginning, and all from the next booking on. Beside says whether a booking
// bounds what is left.
func (t Taken) clip(from, to time.Time) (start, end time.Time, beside bool) {
	for _, s := range t.Stretches {
		switch {
		case s.End.Before(from) || !s.Start.Before(to):
		case s.Start.After(from):
			return from, s.Start, true
		default:
			from, beside = s.End.In(from.Location()), true
		}
	}
	return from, to, beside
}

// stays says whether the vehicle is in the bay from one time to another: it was worked in it, and nobody else has it between.
func (t Taken) stays(since, until time.Time) bool {
	if since.IsZero() {
		return false
	}
	for _, s := range t.Stretches {
		if s.Start.Before(until) && since.Before(s.End) {
			return false
		}
	}
	return true
}
