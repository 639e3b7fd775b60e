package exposure

import "math"

// Hearing is a stretch of time at one sound level.
type Hearing struct {
	// Dba is the A-weighted equivalent level at the ear, in dB, without hearing protection.
	Dba     float64
	Minutes float64
}

// NoiseRule is how levels and times trade against each other, and where a full day's dose lies. The zero value is not usable.
type NoiseRule struct {
	CriterionDba float64 // eight hours at this level are a dose of 100 %
	ExchangeDB   float64 // so many dB more halve the time
	ThresholdDba float64 // levels below do not count
}

// EqualEnergy is the rule of ISO 9612 and of Directive 2003/10/EC, and of NIOSH publication 98-126 at a criterion of
// 85 dB: 3 dB halve the time and every level counts.
func EqualEnergy(criterionDba float64) NoiseRule {
	return NoiseRule{CriterionDba: criterionDba, ExchangeDB: 3, ThresholdDba: math.Inf(-1)}
}

// FiveDecibel is the rule of 29 CFR 1910.95: 90 dB for eight hours, 5 dB halve the time, levels below 80 dB do not count.
func FiveDecibel() NoiseRule {
	return NoiseRule{CriterionDba: 90, ExchangeDB: 5, ThresholdDba: 80}
}

// Check returns a [*RangeError] unless the rule can be reckoned with.
func (r NoiseRule) Check() error {
	if err := within("criterion_dba", r.CriterionDba, leastDba, mostDba, "dB"); err != nil {
		return err
	}
	return within("exchange_db", r.ExchangeDB, 3, 6, "dB")
}

// Levels outside are a slipped unit: from a quiet room to beyond pain (common practice, no source).
const (
	leastDba = 20.0
	mostDba  = 140.0
)

// MinutesAt is how long a level may last for a dose of 100 %: 480 min / 2^((L - criterion)/exchange). +Inf below the
// threshold.
func (r NoiseRule) MinutesAt(dba float64) float64 {
	if dba < r.ThresholdDba {
		return math.Inf(1)
	}
	return 8 * 60 / math.Exp2((dba-r.CriterionDba)/r.ExchangeDB)
}

// DosePct is the share of a full day's dose: 100 % · Σ time / time allowed. The error is a [*RangeError].
func (r NoiseRule) DosePct(day []Hearing) (float64, error) {
	if err := r.Check(); err != nil {
		return 0, err
	}
	if err := checkHearing(day); err != nil {
		return 0, err
	}
	var dose float64
	for _, h := range day {
		dose += h.Minutes / r.MinutesAt(h.Dba)
	}
	return 100 * dose, nil
}

// AverageDba is the level that gives the same dose in eight hours: criterion + exchange · log2(dose). -Inf for no dose.
func (r NoiseRule) AverageDba(dosePct float64) float64 {
	return r.CriterionDba + r.ExchangeDB*math.Log2(dosePct/100)
}

// NoiseLimits are the daily levels that a day is compared with, in dB(A). The zero value is not usable.
type NoiseLimits struct {
	LowerActionDba float64 // hearing protection has to be offered
	UpperActionDba float64 // hearing protection has to be worn
	LimitDba       float64 // at the ear, under the protection, not to be exceeded
	ExchangeDB     float64 // so many dB more halve the time; 3 is equal energy
	ThresholdDba   float64 // levels below do not count
}

// EuropeanNoise are the values of Directive 2003/10/EC, article 3: 80, 85 and 87 dB(A) (from memory).
func EuropeanNoise() NoiseLimits {
	return NoiseLimits{LowerActionDba: 80, UpperActionDba: 85, LimitDba: 87, ExchangeDB: 3}
}

// Check returns a [*RangeError] unless the levels rise.
func (l NoiseLimits) Check() error {
	if err := within("lower_action_dba", l.LowerActionDba, leastDba, mostDba, "dB"); err != nil {
		return err
	}
	if err := within("upper_action_dba", l.UpperActionDba, l.LowerActionDba, mostDba, "dB"); err != nil {
		return err
	}
	if err := within("limit_dba", l.LimitDba, l.UpperActionDba, mostDba, "dB"); err != nil {
		return err
	}
	if err := within("threshold_dba", l.ThresholdDba, 0, l.LowerActionDba, "dB"); err != nil {
		return err
	}
	return within("exchange_db", l.ExchangeDB, 3, 6, "dB")
}

// NoiseDay is a day of noise.
type NoiseDay struct {
	// LepdDba is the daily exposure level L_EP,d (L_EX,8h), as if spread over eight hours; -Inf for a day of silence. By another exchange
	// rate than equal energy it is the time-weighted average of that rate.
	LepdDba float64
	// LowerAction, UpperAction and OverLimit say which levels are reached or, for the limit, passed without protection.
	LowerAction, UpperAction, OverLimit bool
}

// Hear adds up a day: by equal energy L = 10·log10(Σ t·10^(L/10) / 8 h), ISO 9612; by another exchange rate the average level of the
// dose, [NoiseRule.AverageDba], which is the same for any criterion. 29 CFR 1910.95, appendix A, has it as 16.61·log10(dose/100 %) + 90
// for 5 dB. The error is a [*RangeError].
func Hear(day []Hearing, limits NoiseLimits) (NoiseDay, error) {
	if err := limits.Check(); err != nil {
		return NoiseDay{}, err
	}
	if err := checkHearing(day); err != nil {
		return NoiseDay{}, err
	}
	level := limits.level(day)
	const digits = 1e-9 // a day built to meet a level must not fall below it
	return NoiseDay{
		LepdDba:     level,
		LowerAction: level >= limits.LowerActionDba-digits,
		UpperAction: level >= limits.UpperActionDba-digits,
		OverLimit:   level > limits.LimitDba+digits,
	}, nil
}

// level is the daily level of a day that was checked.
func (l NoiseLimits) level(day []Hearing) float64 {
	if l.ExchangeDB != 3 {
		rule := NoiseRule{CriterionDba: l.UpperActionDba, ExchangeDB: l.ExchangeDB, ThresholdDba: l.ThresholdDba}
		var dose float64
		for _, h := range day {
			dose += h.Minutes / rule.MinutesAt(h.Dba)
		}
		return rule.AverageDba(100 * dose)
	}
	var energy float64
	for _, h := range day {
		if h.Dba >= l.ThresholdDba {
			energy += h.Minutes / (8 * 60) * math.Pow(10, h.Dba/10)
		}
	}
	return 10 * math.Log10(energy)
}

func checkHearing(day []Hearing) error {
	minutes := make([]float64, len(day))
	for i, h := range day {
		if err := within("noise_dba", h.Dba, leastDba, mostDba, "dB"); err != nil {
			return err
		}
		minutes[i] = h.Minutes
	}
	return checkMinutes(minutes)
}
