package film

import "fmt"

// Flag is what readings may point to. A flag is evidence, never proof: factories rework panels too, and a reading over
// 300 µm has left the works on a new vehicle.
type Flag string

// The flags, in the order in which [Policy.Signs] gives them.
const (
	Thin            Flag = "thin"
	RepaintOrRework Flag = "repaint or factory rework"
	FillerSuspected Flag = "filler suspected"
)

// Sign is one piece of evidence for a flag.
type Sign struct {
	Flag Flag
	// Where is the spot, or the panel compared with.
	Where string
	// ValueUm went past LimitUm.
	ValueUm Microns
	LimitUm Microns
	// Step is true when the value is a difference to another panel.
	Step bool
	// BeyondError is true when the value is past the limit by more than its own uncertainty: the reading is sure, what
	// it means still is not.
	BeyondError bool
}

// String tells a technician what was seen and what it may mean.
func (s Sign) String() string {
	switch {
	case s.Step:
		return fmt.Sprintf("differs by %s from %s, over %s: repaint or factory rework of one of the two is possible", size(s.ValueUm), s.Where, s.LimitUm)
	case s.Flag == Thin:
		return fmt.Sprintf("may be as thin as %s at %s, under %s: treat as thin", s.ValueUm, s.Where, s.LimitUm)
	case s.Flag == FillerSuspected:
		return fmt.Sprintf("reads %s at %s, over %s: filler under the paint is possible", s.ValueUm, s.Where, s.LimitUm)
	}
	return fmt.Sprintf("reads %s at %s, over %s: repaint or factory rework is possible", s.ValueUm, s.Where, s.LimitUm)
}

// Signs holds readings of the whole film against the policy's thresholds. Thin goes by the lower bound of the film and
// errs to caution; repaint and filler go by the highest spot mean and by the greatest step to a neighbour, step being nil
// if there is none. It returns [ErrNotTotal] for readings of the top layer, or the complaints of [Policy.Check].
func (p Policy) Signs(m Measured, step *Step) ([]Sign, error) {
	if m.Layer != Total {
		return nil, ErrNotTotal
	}
	if err := p.Check(); err != nil {
		return nil, err
	}
	var signs []Sign
	if thin := thinnest(m.Spots); thin.LowUm < p.ThinUm {
		signs = append(signs, Sign{Flag: Thin, Where: thin.Name, ValueUm: thin.LowUm, LimitUm: p.ThinUm, BeyondError: thin.HighUm < p.ThinUm})
	}
	if m.HighestUm > p.RepaintUm {
		signs = append(signs, over(RepaintOrRework, m, p.RepaintUm))
	}
	if step != nil && size(step.DiffUm) > p.NeighbourUm {
		signs = append(signs, Sign{Flag: RepaintOrRework, Where: step.To, ValueUm: step.DiffUm, LimitUm: p.NeighbourUm, Step: true, BeyondError: size(step.DiffUm)-step.HalfUm > p.NeighbourUm})
	}
	if m.HighestUm > p.FillerUm {
		signs = append(signs, over(FillerSuspected, m, p.FillerUm))
	}
	return signs, nil
}

func thinnest(spots []SpotMean) SpotMean {
	thin := spots[0]
	for _, s := range spots[1:] {
		if s.LowUm < thin.LowUm {
			thin = s
		}
	}
	return thin
}

func over(f Flag, m Measured, limit Microns) Sign {
	s := Sign{Flag: f, Where: m.HighestSpot, ValueUm: m.HighestUm, LimitUm: limit}
	for _, spot := range m.Spots {
		s.BeyondError = s.BeyondError || spot.LowUm > limit
	}
	return s
}
