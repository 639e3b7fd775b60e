package plan

// Span is a figure that is not known exactly: what it is at least, what is likely, and at most. The three rise.
type Span struct{ Low, Likely, High float64 }

// Exactly is a figure that is known.
func Exactly(v float64) Span { return Span{v, v, v} }

// Plus adds ends to ends: a slow day is slow for every panel, so doubts do not cancel.
func (s Span) Plus(other Span) Span {
	return Span{s.Low + other.Low, s.Likely + other.Likely, s.High + other.High}
}

// Times multiplies ends with ends; both must not be below zero.
func (s Span) Times(other Span) Span {
	return Span{s.Low * other.Low, s.Likely * other.Likely, s.High * other.High}
}

// By scales all three by a factor that is not below zero.
func (s Span) By(factor float64) Span { return s.Times(Exactly(factor)) }

// Less is what is left of s after other is taken: least where most is taken.
func (s Span) Less(other Span) Span {
	return Span{s.Low - other.High, s.Likely - other.Likely, s.High - other.Low}
}

// rises says whether the three are finite, in order and not below least.
func (s Span) rises(least float64) bool {
	return s.Low >= least && s.Likely >= s.Low && s.High >= s.Likely && s.High <= mostFigure
}

// mostFigure is far over anything that is planned, and keeps infinities out.
const mostFigure = 1e9
