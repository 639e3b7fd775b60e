package plan

import "math"

// PadAreaM2 is the face of a round pad, m².
func PadAreaM2(padMm float64) float64 { return math.Pi / 4 * padMm * padMm / 1e6 }

// Sections is how many sections an area comes to, at least one for any area. A quotient that is whole but for the last
// digits of its division counts as whole: 1.12 m² in sections of 0.16 m² are seven.
func Sections(areaM2, sectionM2 float64) int {
	const digits = 1e-9
	return max(1, int(math.Ceil(areaM2/sectionM2*(1-digits))))
}

// MinutesPerM2 is the time a machine needs for one pass over a square metre: strokes lie a pad's width apart less the overlap,
// and the arm moves at its speed. 1 m² / (w·(1 - overlap)·v).
func MinutesPerM2(padMm, overlapPct, armCmS float64) float64 {
	metresPerSecond, strokeM := armCmS/100, padMm/1000*(1-overlapPct/100)
	return 1 / (strokeM * metresPerSecond) / 60
}

// PathMetres is how far the pad's centre travels over an area in all passes.
func PathMetres(areaM2, padMm, overlapPct, passes float64) float64 {
	return passes * areaM2 / (padMm / 1000 * (1 - overlapPct/100))
}
