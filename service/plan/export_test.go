package plan

import "time"

// NextOpen is the first open stretch at or after a time.
func NextOpen(o Opening, at time.Time) (from, to time.Time, ok bool) { return o.next(at) }

// BestFollowing is [Pool.Best] that follows only so many choices at a time.
func (p *Pool) BestFollowing(limit int64, width int) (Pooled, bool, error) {
	return p.best(limit, width)
}
