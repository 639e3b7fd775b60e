package exposure

import "math"

// Hold is a stretch of time with one vibrating machine in the hands.
type Hold struct {
	// Ms2 is the vibration total value: the root of the sum of the squares of the frequency-weighted accelerations along
	// three axes, in m/s² (ISO 5349-1). See [TotalOfAxes].
	Ms2 float64
	// Minutes in the hands with the machine running. Pauses do not count.
	Minutes float64
}

// VibrationLimits are the daily values A(8) that a day is compared with, in m/s². The zero value is not usable.
type VibrationLimits struct {
	ActionMs2 float64 // from here on the employer has to act
	LimitMs2  float64 // not to be exceeded
}

// EuropeanVibration are the values of Directive 2002/44/EC, article 3: action from 2.5 m/s², limit 5 m/s².
func EuropeanVibration() VibrationLimits { return VibrationLimits{ActionMs2: 2.5, LimitMs2: 5} }

// Check returns a [*RangeError] unless the values rise from above zero.
func (l VibrationLimits) Check() error {
	if err := positive("action_ms2", l.ActionMs2, "m/s²"); err != nil {
		return err
	}
	if err := within("limit_ms2", l.LimitMs2, l.ActionMs2, mostMs2, "m/s²"); err != nil {
		return err
	}
	return nil
}

// mostMs2 is more than any hand-held machine gives (the published scale for a day ends at 50 m/s²).
const mostMs2 = 100

// Band says where a day stands beside two limits.
type Band int

// The bands, in rising order.
const (
	Below     Band = iota // under the action value
	Action                // at or over the action value
	OverLimit             // over the limit
)

// String names the band in words.
func (b Band) String() string {
	return [...]string{"below the action value", "at or over the action value", "over the limit"}[max(0, min(b, 2))]
}

// VibrationDay is a day of hand-arm vibration.
type VibrationDay struct {
	A8Ms2   float64 // daily exposure, as if spread over eight hours
	Points  float64 // the same on a scale that adds up: 100 points are 2.5 m/s²
	Minutes float64 // in the hands
	Band    Band
	// Shares is over how many people or days the work must be spread for each to stay below the action value, 1 when it does
	// already.
	Shares int
}

// Vibrate adds up a day: A(8) = √(Σ a²·t/8 h), ISO 5349-1 and Directive 2002/44/EC, annex A. A day at the action value
// itself counts as [Action]; only a day past the limit is [OverLimit]. The error is a [*RangeError].
func Vibrate(day []Hold, limits VibrationLimits) (VibrationDay, error) {
	if err := limits.Check(); err != nil {
		return VibrationDay{}, err
	}
	var dose float64 // m²/s⁴ · h
	minutes := make([]float64, len(day))
	for i, hold := range day {
		if err := within("vibration_ms2", hold.Ms2, 0, mostMs2, "m/s²"); err != nil {
			return VibrationDay{}, err
		}
		minutes[i] = hold.Minutes
		dose += hold.Ms2 * hold.Ms2 * hold.Minutes / 60
	}
	if err := checkMinutes(minutes); err != nil {
		return VibrationDay{}, err
	}
	out := VibrationDay{A8Ms2: math.Sqrt(dose / 8), Points: pointsOf(dose)}
	for _, m := range minutes {
		out.Minutes += m
	}
	out.Band = bandOf(dose, limits.ActionMs2, limits.LimitMs2)
	out.Shares = shares(dose, limits.ActionMs2)
	return out, nil
}

// pointsOf is the exposure points of a dose: two for each m²/s⁴ and hour, by the ready reckoner of the British Health and
// Safety Executive. A(8) = 2.5 m/s² · √(points/100).
func pointsOf(dose float64) float64 { return 2 * dose }

// doseAt is the dose of eight hours at a daily value.
func doseAt(ms2 float64) float64 { return 8 * ms2 * ms2 }

// bandOf allows for the last digits of the sums: a day built to meet a limit exactly must not fall on the other side.
func bandOf(dose, action, limit float64) Band {
	switch {
	case dose > doseAt(limit)*(1+1e-9):
		return OverLimit
	case dose >= doseAt(action)*(1-1e-9):
		return Action
	}
	return Below
}

func shares(dose, action float64) int {
	n := math.Floor(dose/doseAt(action)*(1+1e-9)) + 1
	return int(n)
}

// MinutesTo is how long a machine can be held in a day that has nothing else before the daily value is reached; +Inf for
// a machine that does not vibrate. The error is a [*RangeError].
func MinutesTo(dailyMs2, machineMs2 float64) (float64, error) {
	if err := positive("daily_ms2", dailyMs2, "m/s²"); err != nil {
		return 0, err
	}
	if err := within("vibration_ms2", machineMs2, 0, mostMs2, "m/s²"); err != nil {
		return 0, err
	}
	return 8 * 60 * dailyMs2 * dailyMs2 / (machineMs2 * machineMs2), nil
}

// TotalOfAxes is the vibration total value of three axes in m/s², ISO 5349-1 (4.5).
func TotalOfAxes(x, y, z float64) float64 { return math.Sqrt(x*x + y*y + z*z) }
