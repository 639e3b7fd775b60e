package lessons

import "fmt"

// Class is what outcomes are told apart by. Empty words are not known or, of Kind and Shade, not asked about.
type Class struct {
	// Step is "finish", "polish" or "cut".
	Step string
	// Softness is that of the paint: "soft".
	Softness string
	// Band is how bad the worst mark was.
	Band Band
	// Kind is the kind of the worst mark: "wash-marks".
	Kind string
	// Shade is that of the colour: "dark".
	Shade string
}

// Covers says whether a class is one of those that this one speaks of: words that are empty here, and a band that is not graded,
// stand for any. The step is looked at only where one is named.
func (c Class) Covers(o Class) bool {
	any := func(mine, other string) bool { return mine == "" || mine == other }
	return any(c.Step, o.Step) && any(c.Softness, o.Softness) && any(c.Kind, o.Kind) && any(c.Shade, o.Shade) &&
		(c.Band == NotGraded || c.Band == o.Band)
}

// Band is a range of severities, after ISO 4628-1 from 0 to 5 in half grades. The zero Band is not graded.
type Band uint8

// The bands, the mildest first.
const (
	NotGraded Band = iota
	Faint          // under 1
	Light          // 1 and 1.5
	Moderate       // 2 and 2.5
	Clear          // 3 and 3.5
	Heavy          // 4 and more
)

// Bands are those of graded marks, the mildest first.
func Bands() []Band { return []Band{Faint, Light, Moderate, Clear, Heavy} }

// BandOf is the band of a severity; nil is not graded.
func BandOf(severity *float64) Band {
	switch {
	case severity == nil:
		return NotGraded
	case *severity < 1:
		return Faint
	case *severity < 2:
		return Light
	case *severity < 3:
		return Moderate
	case *severity < 4:
		return Clear
	}
	return Heavy
}

// Worst is the highest severity of the band, which expectations are asked for: to expect less of a step is the careful side.
// False when not graded.
func (b Band) Worst() (severity float64, graded bool) {
	switch b {
	case Faint:
		return 0.5, true
	case Light:
		return 1.5, true
	case Moderate:
		return 2.5, true
	case Clear:
		return 3.5, true
	case Heavy:
		return 5, true
	}
	return 0, false
}

// String is the band in severities: "2 to 2.5".
func (b Band) String() string {
	switch b {
	case Faint:
		return "up to 0.5"
	case Light, Moderate, Clear:
		worst, _ := b.Worst()
		return fmt.Sprintf("%v to %v", worst-0.5, worst)
	case Heavy:
		return "4 to 5"
	}
	return "not graded"
}
