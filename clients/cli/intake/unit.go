package intake

import (
	"fmt"
	"math/big"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// Bare says what a number without a unit means in a whole file. The zero value reads film in µm and heat in °C.
type Bare struct {
	// FilmMil reads every bare film thickness in mil.
	FilmMil bool
	// HeatF reads every bare temperature in °F.
	HeatF bool
}

// unit is a unit that fields of the contract are in.
type unit string

const (
	noUnit   unit = ""
	microns  unit = "µm"
	celsius  unit = "°C"
	glossGU  unit = "GU"
	hazeHU   unit = "HU"
	percent  unit = "%"
	minutes  unit = "min"
	days     unit = "days"
	years    unit = "years"
	armSpeed unit = "cm/s"
)

// unitOf is the unit of a field by the ending of its name, the same in every message.
func unitOf(field protoreflect.FieldDescriptor) unit {
	name := string(field.Name())
	for _, known := range []struct {
		ending string
		unit   unit
	}{
		{"_um", microns},
		{"_cm_s", armSpeed},
		{"_c", celsius},
		{"_gu", glossGU},
		{"_hu", hazeHU},
		{"_pct", percent},
		{"_min", minutes},
		{"minutes", minutes},
		{"_days", days},
		{"_years", years},
	} {
		if strings.HasSuffix(name, known.ending) {
			return known.unit
		}
	}
	return noUnit
}

// spelling is one way to write a unit, and how its numbers become numbers of the field's own unit.
type spelling struct {
	written string // in lower case
	into    func(*big.Rat) *big.Rat
}

// spellings lists how people write a unit, the one to advise first.
func spellings(of unit) []spelling {
	same := func(v *big.Rat) *big.Rat { return v }
	switch of {
	case microns:
		return []spelling{
			{"µm", same}, {"mil", milToMicrons}, // a micro sign
			{"μm", same}, {"um", same}, {"micron", same}, {"microns", same}, {"mils", milToMicrons}, // a Greek mu
		}
	case celsius:
		return []spelling{
			{"°c", same},
			{"°f", fahrenheitToCelsius},
			{"c", same},
			{"f", fahrenheitToCelsius},
			{"degc", same},
			{"degf", fahrenheitToCelsius},
		}
	case glossGU:
		return []spelling{{"gu", same}}
	case hazeHU:
		return []spelling{{"hu", same}}
	case percent:
		return []spelling{{"%", same}, {"percent", same}}
	case minutes:
		return []spelling{{"min", same}, {"minutes", same}, {"minute", same}}
	case days:
		return []spelling{{"days", same}, {"day", same}}
	case years:
		return []spelling{{"years", same}, {"year", same}}
	case armSpeed:
		return []spelling{{"cm/s", same}}
	}
	return nil
}

// milToMicrons: a mil is a thousandth of an inch, and an inch is 25.4 mm by definition.
func milToMicrons(v *big.Rat) *big.Rat { return new(big.Rat).Mul(v, big.NewRat(127, 5)) }

// fahrenheitToCelsius: by definition of the scale, (F - 32) · 5/9.
func fahrenheitToCelsius(v *big.Rat) *big.Rat {
	return new(big.Rat).Mul(new(big.Rat).Sub(v, big.NewRat(32, 1)), big.NewRat(5, 9))
}

// quantity reads a number with or without a unit and gives it in the field's own unit. Conversions are exact; the one
// rounding is to the nearest double. Otherwise it says what is wrong and a way out.
func quantity(text string, of unit, bare Bare) (value float64, message, hint string) {
	number, written := cutUnit(text)
	exact, why := decimal(number)
	if exact == nil {
		return 0, fmt.Sprintf("%s is not a number", shown(text)), why
	}
	into, ok := conversion(written, of, bare)
	if !ok {
		return 0, fmt.Sprintf("%s is the wrong unit", shown(written)), unitHint(of)
	}
	value, _ = into(exact).Float64()
	if value == 0 {
		value = 0 // not the negative zero that -0 would give
	}
	return value, "", ""
}

// cutUnit splits "4.6 mil" into the number and the unit behind it.
func cutUnit(text string) (number, written string) {
	text = strings.TrimSpace(text)
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789+-.,_", r) })
	if end < 0 {
		return text, ""
	}
	return text[:end], strings.TrimSpace(text[end:])
}

func conversion(written string, of unit, bare Bare) (func(*big.Rat) *big.Rat, bool) {
	if written == "" {
		switch {
		case of == microns && bare.FilmMil:
			return milToMicrons, true
		case of == celsius && bare.HeatF:
			return fahrenheitToCelsius, true
		}
		return func(v *big.Rat) *big.Rat { return v }, true
	}
	written = strings.ReplaceAll(strings.ToLower(written), " ", "")
	for _, s := range spellings(of) {
		if s.written == written {
			return s.into, true
		}
	}
	return nil, false
}

func unitHint(of unit) string {
	switch of {
	case noUnit:
		return "write the number alone"
	case microns:
		return "write µm or mil"
	case celsius:
		return "write °C or °F"
	}
	return "write " + string(of) + ", or the number alone"
}
