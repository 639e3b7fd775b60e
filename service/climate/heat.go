package climate

// Heat is how warm a panel is, in the words of the rules: cool, comfortable, warm, hot, in rising order.
type Heat string

// The words, coolest first.
const (
	Cool        Heat = "cool"
	Comfortable Heat = "comfortable"
	Warm        Heat = "warm"
	Hot         Heat = "hot"
)

// Bands are the borders between the words. They are judgement and come from the rule files; the zero value is not
// usable. A panel exactly at a border takes the warmer word, except that cool ends just below CoolBelowC.
type Bands struct {
	CoolBelowC Celsius
	WarmFromC  Celsius
	HotFromC   Celsius
}

// Check returns a [*RangeError] unless the borders are temperatures that rise: cool below warm below hot.
func (b Bands) Check() error {
	if !finite(float64(b.CoolBelowC)) || b.CoolBelowC < absoluteZero {
		return &RangeError{"cool_below_c", float64(b.CoolBelowC), "a temperature of at least -273.15 °C", "mend the border in the rule file"}
	}
	if !(b.WarmFromC > b.CoolBelowC) || !finite(float64(b.WarmFromC)) {
		return &RangeError{"warm_from_c", float64(b.WarmFromC), "over cool_below_c, " + b.CoolBelowC.String(), "mend the border in the rule file"}
	}
	if !(b.HotFromC > b.WarmFromC) || !finite(float64(b.HotFromC)) {
		return &RangeError{"hot_from_c", float64(b.HotFromC), "over warm_from_c, " + b.WarmFromC.String(), "mend the border in the rule file"}
	}
	return nil
}

// Of names the heat of a panel. The error is a [*RangeError], of the panel or of the borders.
func (b Bands) Of(panel Celsius) (Heat, error) {
	if err := b.Check(); err != nil {
		return "", err
	}
	if err := checkPanel(panel); err != nil {
		return "", err
	}
	switch {
	case panel >= b.HotFromC:
		return Hot, nil
	case panel >= b.WarmFromC:
		return Warm, nil
	case panel >= b.CoolBelowC:
		return Comfortable, nil
	}
	return Cool, nil
}
