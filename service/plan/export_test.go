package plan

import "time"

// NextOpen is the first open stretch at or after a time.
func NextOpen(o Opening, at time.Time) (from, to time.Time, ok bool) { return o.next(at) }
