package history

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// BayTakenError tells that other jobs hold the time that a job was to get in a bay.
type BayTakenError struct {
	Bay string
	// InTheWay is what others hold of that time, by start; what one of them holds without a gap is one stretch.
	InTheWay []Held
	// Free is from when the first block that something is in the way of would fit, opening hours left aside.
	Free time.Time
}

// mostNamed is how many stretches a message names.
const mostNamed = 3

func (e *BayTakenError) Error() string {
	var held []string
	for _, h := range e.InTheWay[:min(len(e.InTheWay), mostNamed)] {
		held = append(held, fmt.Sprintf("job %s holds it from %s to %s", h.Job, clockOf(h.Start), clockOf(h.End)))
	}
	if more := len(e.InTheWay) - len(held); more > 0 {
		held = append(held, fmt.Sprintf("%d more", more))
	}
	return fmt.Sprintf("%s is taken: %s; it is free for this from %s on; choose another time or bay, or allow the overlap",
		e.Bay, strings.Join(held, ", "), clockOf(e.Free))
}

// clockOf is a time as messages have it, the same on every machine.
func clockOf(at time.Time) string { return at.UTC().Format("2006-01-02 15:04 UTC") }

// freeFor returns a [*BayTakenError] if others than the job hold any of the time.
func (d *Diary) freeFor(job string, wanted *Bay) error {
	others := d.Others(job)
	var out *BayTakenError
	for _, block := range wanted.Blocks {
		for _, h := range others {
			if !h.Start.Before(block.End) || !block.Start.Before(h.End) {
				continue
			}
			if out == nil {
				out = &BayTakenError{Bay: wanted.ID, Free: freeFrom(others, block)}
			}
			if !slices.Contains(out.InTheWay, h) {
				out.InTheWay = append(out.InTheWay, h)
			}
		}
	}
	if out == nil {
		return nil
	}
	out.InTheWay = joined(out.InTheWay)
	return out
}

// freeFrom is the first time from the block's start on at which as long a stretch is free.
func freeFrom(others []Held, block BayBlock) time.Time {
	at, long := block.Start, block.End.Sub(block.Start)
	for _, h := range others { // by start: once a stretch begins past the gap, the gap is free
		if !h.Start.Before(at.Add(long)) {
			break
		}
		if h.End.After(at) {
			at = h.End
		}
	}
	return at
}

// joined puts stretches of one job together that touch.
func joined(held []Held) []Held {
	var out []Held
	slices.SortFunc(held, func(a, b Held) int { return cmp.Or(strings.Compare(a.Job, b.Job), a.Start.Compare(b.Start)) })
	for _, h := range held {
		if last := len(out) - 1; last >= 0 && out[last].Job == h.Job && !h.Start.After(out[last].End) {
			out[last].End = h.End
			continue
		}
		out = append(out, h)
	}
	slices.SortFunc(out, func(a, b Held) int { return cmp.Or(a.Start.Compare(b.Start), strings.Compare(a.Job, b.Job)) })
	return out
}
