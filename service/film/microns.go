package film

import "strconv"

// Microns is a film thickness or a difference of two, µm.
type Microns float64

// micronsPerMil is exact: one mil is a thousandth of an inch, and an inch is 25.4 mm by definition (NIST SP 811,
// appendix B.8).
const micronsPerMil = 25.4

// FromMil converts thousandths of an inch.
func FromMil(mil float64) Microns { return Microns(mil * micronsPerMil) }

// Mil converts back to thousandths of an inch.
func (m Microns) Mil() float64 { return float64(m) / micronsPerMil }

// String prints one decimal, finer than any film gauge reads: "104.3 µm".
func (m Microns) String() string { return strconv.FormatFloat(float64(m), 'f', 1, 64) + " µm" }
