package plan

// BestFollowing is [Pool.Best] that follows only so many choices at a time.
func (p *Pool) BestFollowing(limit int64, width int) (Pooled, bool, error) {
	return p.best(limit, width)
}
