package lessons

// Proven is how surely a step is accepted where it is tried first on marks of a class or worse ones of the same kind, and over
// how many panels: what clears worse marks clears these, so that the surest of those bands speaks, and a step that is proven on
// some marks is never less proven on milder ones. False: there is no record. Marks that nobody graded have none.
func (l *Lessons) Proven(c Class) (panels int, low float64, ok bool) {
	if c.Band == NotGraded {
		return 0, 0, false
	}
	for band := c.Band; band <= Heavy; band++ {
		c.Band = band
		found := l.lessons[l.split.of(c)]
		if found == nil || found.Success.N == 0 {
			continue
		}
		if !ok || found.Success.Low > low {
			panels, low, ok = found.Success.N, found.Success.Low, true
		}
	}
	return panels, low, ok
}
