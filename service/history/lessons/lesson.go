package lessons

// Confidence is that of every interval here: nine in ten, so that a low end is passed with a chance of 95 %.
const Confidence = 0.9

// Estimate is what is known of one quantity in one class.
type Estimate struct {
	// N is how many records of the class it rests on. Zero: it is what the shop's other classes lead one to expect.
	N int
	// Mean is the estimate, and Low and High the ends of its interval.
	Mean, Low, High float64
	// Own is the plain mean of the class's records. Nil without any.
	Own *float64
	// Usual is what is stated for the class, and Shop what the shop's record alone makes of that where the class has none.
	Usual, Shop float64
	// Shrunk is how far the estimate is drawn from Own to Shop, 0 to 1. Nil without records, or when the two agree.
	Shrunk *float64
}

// Lesson is what the record says of one class.
type Lesson struct {
	Class Class
	// Jobs is how many jobs it rests on.
	Jobs int
	// Success is the chance that the step is accepted where it is tried first; its N are panels whose trials came to an end.
	Success Estimate
	// Gain is the gain in GU, by the angle that gloss was read at. An angle without a record in any class is missing.
	Gain map[int]Estimate
	// RemovalUm is what the complete step takes, from trials where film readings tell.
	RemovalUm Estimate
	// TrialMinutes is what one section takes in a trial. WorkMinutes is what one takes when the step is carried over a panel;
	// nothing is stated of it, so that it is known only from the record: N is 0 without, and the rest then means nothing.
	TrialMinutes, WorkMinutes Estimate
}

// Angles are the angles at which some gain is on record, the most telling first: 20, 60, 85.
func (l Lesson) Angles() []int {
	var out []int
	for _, angle := range []int{20, 60, 85} {
		if _, ok := l.Gain[angle]; ok {
			out = append(out, angle)
		}
	}
	return out
}

// settle fills in how far an estimate is drawn from its own records.
func (e *Estimate) settle() {
	if e.Own == nil {
		return
	}
	way := e.Shop - *e.Own
	if way*way < 1e-12 {
		return
	}
	shrunk := min(max((e.Mean-*e.Own)/way, 0), 1)
	e.Shrunk = &shrunk
}
