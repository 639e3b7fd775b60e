package plan

import (
	"math"
	"slices"

	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/exposure"
)

// Day is what one person's day of this plan comes to when the work is spread evenly over people and days.
type Day struct {
	// Days is how many working days the plan takes the crew, one at least.
	Days int
	// HandsMin is the likely time with a machine in the hands, for each person and day.
	HandsMin float64
	// Vibration by the declared values, and VibrationHigh with their declared uncertainty on top and at the longest times. Nil when no
	// machine in use has a figure.
	Vibration, VibrationHigh *exposure.VibrationDay
	Noise                    *exposure.NoiseDay
	// What the day is held against: the values that the shop's catalogue names.
	VibrationLimits exposure.VibrationLimits
	NoiseLimits     exposure.NoiseLimits
	// Unknown are the machines in use without a figure: the day is then more than what is shown.
	UnknownVibration, UnknownNoise []string
}

// running is the time one machine runs.
type running struct {
	id      string
	minutes Span
}

// runs adds up the time of each machine, in the order of use.
func runs(panels []PanelWork) []running {
	var out []running
	for i := range panels {
		for k, s := range panels[i].Steps {
			id := panels[i].Panel.Steps[k].MachineID
			at := slices.IndexFunc(out, func(r running) bool { return r.id == id })
			if at < 0 {
				at, out = len(out), append(out, running{id: id})
			}
			out[at].minutes = out[at].minutes.Plus(s.MachineMin)
		}
	}
	return out
}

// days reckons the exposure of one person and day. It is one entry as long as all days are alike, none when nothing runs.
func (v *Vehicle) days(p *Plan) ([]Day, error) {
	all := runs(p.Panels)
	if len(all) == 0 {
		return nil, nil
	}
	crewMinutes := float64(v.Crew.People) * v.Crew.DayHours * 60
	day := Day{Days: max(1, int(math.Ceil(p.WorkMin.Likely/crewMinutes*(1-1e-9))))}
	day.VibrationLimits, day.NoiseLimits = v.limits()
	shares := float64(day.Days * v.Crew.People)
	longest := longestShare(all, shares)
	var likely, high []exposure.Hold
	var heard []exposure.Hearing
	for _, run := range all {
		day.HandsMin += run.minutes.Likely / shares
		machine, known := v.machine(run.id)
		if ms2, has := machine.VibrationMs2.Value(); known && has {
			k, _ := machine.VibrationKMs2.Value()
			likely = append(likely, exposure.Hold{Ms2: ms2, Minutes: run.minutes.Likely / shares})
			high = append(high, exposure.Hold{Ms2: ms2 + k, Minutes: run.minutes.High / shares * longest})
		} else if run.id != "" {
			day.UnknownVibration = append(day.UnknownVibration, run.id)
		}
		if dba, has := machine.NoiseDba.Value(); known && has {
			heard = append(heard, exposure.Hearing{Dba: dba, Minutes: run.minutes.Likely / shares})
		} else if run.id != "" {
			day.UnknownNoise = append(day.UnknownNoise, run.id)
		}
	}
	return []Day{day}, day.expose(likely, high, heard)
}

// longestShare scales the longest times down to what a day holds: work that takes longer goes on another day.
func longestShare(all []running, shares float64) float64 {
	const day = 24 * 60
	sum := 0.0
	for _, run := range all {
		sum += run.minutes.High / shares
	}
	return min(1, day/max(sum, 1))
}

// machine is a machine of the shop's; hands have no figures.
func (v *Vehicle) machine(id string) (catalogue.Machine, bool) {
	if v.Shop == nil || id == "" {
		return catalogue.Machine{}, false
	}
	return v.Shop.Machine(id)
}

// limits are those that the shop's catalogue names.
func (v *Vehicle) limits() (exposure.VibrationLimits, exposure.NoiseLimits) {
	named := catalogue.European()
	if v.Shop != nil {
		named = v.Shop.Limits()
	}
	return exposure.VibrationLimits(named.Vibration), exposure.NoiseLimits(named.Noise)
}

func (d *Day) expose(likely, high []exposure.Hold, heard []exposure.Hearing) error {
	if len(likely) > 0 {
		usual, err := exposure.Vibrate(likely, d.VibrationLimits)
		if err != nil {
			return err
		}
		most, err := exposure.Vibrate(high, d.VibrationLimits)
		if err != nil {
			return err
		}
		d.Vibration, d.VibrationHigh = &usual, &most
	}
	if len(heard) > 0 {
		noise, err := exposure.Hear(heard, d.NoiseLimits)
		if err != nil {
			return err
		}
		d.Noise = &noise
	}
	return nil
}
