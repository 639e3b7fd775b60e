package catalogue

import (
	"fmt"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Limits are the daily values of hand-arm vibration and noise that the law of the shop's place holds a day's work against.
type Limits struct {
	Vibration VibrationLimits
	Noise     NoiseLimits
}

// VibrationLimits are values A(8), in m/s².
type VibrationLimits struct{ ActionMs2, LimitMs2 float64 }

// NoiseLimits are daily levels in dB(A), and how levels and times trade.
type NoiseLimits struct {
	LowerActionDba float64 // hearing protection is offered
	UpperActionDba float64 // hearing protection is worn
	LimitDba       float64 // not to be exceeded, under the protection
	ExchangeDB     float64 // so many dB more halve the time: 3 or 5
	ThresholdDba   float64 // levels below do not count; 0 when every level does
}

// European are the limits of a catalogue that names none: of vibration those of Directive 2002/44/EC, article 3 (2), of noise those of
// Directive 2003/10/EC, article 3 (1), whose daily level is by equal energy (ISO 9612).
func European() Limits {
	return Limits{
		Vibration: VibrationLimits{ActionMs2: 2.5, LimitMs2: 5},
		Noise:     NoiseLimits{LowerActionDba: 80, UpperActionDba: 85, LimitDba: 87, ExchangeDB: equalEnergy},
	}
}

// The exchange rates in use: equal energy, and that of 29 CFR 1910.95.
const (
	equalEnergy = 3
	fiveDecibel = 5
)

// Limits are the shop's, or the European ones where the catalogue does not say.
func (c *Catalogue) Limits() Limits { return c.limits }

// limits reads the optional section.
func (r *reader) limits(file record) Limits {
	out := European()
	node := file.fields["limits"]
	if node == nil || node.Kind() == strictyaml.Refused {
		return out
	}
	rec, ok := r.record(node, "limits", "vibration", "noise")
	if !ok {
		return out
	}
	if at := rec.fields["vibration"]; at != nil {
		out.Vibration = r.vibrationLimits(at)
	}
	if at := rec.fields["noise"]; at != nil {
		out.Noise = r.noiseLimits(at)
	}
	return out
}

func (r *reader) vibrationLimits(node *strictyaml.Node) (l VibrationLimits) {
	rec, ok := r.record(node, "vibration", "action_ms2", "limit_ms2")
	if !ok {
		return l
	}
	l.ActionMs2 = rec.number("action_ms2", span{0.1, 20, "m/s²"})
	l.LimitMs2 = rec.number("limit_ms2", span{0.1, 50, "m/s²"})
	rec.inOrder("action_ms2", "limit_ms2", l.ActionMs2, l.LimitMs2)
	return l
}

func (r *reader) noiseLimits(node *strictyaml.Node) (l NoiseLimits) {
	rec, ok := r.record(node, "noise", "lower_action_dba", "upper_action_dba", "limit_dba", "exchange_db", "threshold_dba")
	if !ok {
		return l
	}
	levels := span{60, 120, "dB"}
	l.LowerActionDba = rec.number("lower_action_dba", levels)
	l.UpperActionDba = rec.number("upper_action_dba", levels)
	l.LimitDba = rec.number("limit_dba", levels)
	rec.inOrder("lower_action_dba", "upper_action_dba", l.LowerActionDba, l.UpperActionDba)
	rec.inOrder("upper_action_dba", "limit_dba", l.UpperActionDba, l.LimitDba)
	l.ExchangeDB = equalEnergy
	if at := rec.fields["exchange_db"]; at != nil {
		rate := rec.figure("exchange_db", span{equalEnergy, fiveDecibel, "dB"})
		if l.ExchangeDB = rate.value; rate.known && rate.value != equalEnergy && rate.value != fiveDecibel {
			r.refuse(at, fmt.Sprintf("exchange_db is %s dB", short(rate.value)), "write 3, equal energy, or 5")
		}
	}
	if rec.fields["threshold_dba"] != nil {
		l.ThresholdDba = rec.figure("threshold_dba", levels).value
		rec.inOrder("threshold_dba", "lower_action_dba", l.ThresholdDba, l.LowerActionDba)
	}
	return l
}

// inOrder checks that of two values that could be read the second is not below the first.
func (rec record) inOrder(low, high string, lowest, highest float64) {
	rec.rising(low, Figure{lowest, lowest != 0}, high, Figure{highest, highest != 0})
}
