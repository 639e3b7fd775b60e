package climate

import "math"

// The Magnus form over water with the coefficients of Alduchov and Eskridge, "Improved Magnus form approximation of
// saturation vapor pressure", J. Appl. Meteorol. 35 (1996) 601-609: e_s = 6.1094 hPa exp(a t / (b + t)).
const (
	magnusA         = 17.625
	magnusB Celsius = 243.04

	// The stated range of the fit; inside it the dew point is good to about 0.35 K.
	airLeast Celsius = -40
	airMost  Celsius = 60
)

// DewPoint is the temperature at which moisture from this air settles on a panel. Air must lie in -40 to 60 °C and
// relative humidity in (0, 100] %, otherwise the error is a [*RangeError]. Below 0 °C it is the dew point over water;
// frost forms a little earlier.
//
// It inverts the Magnus form: t_d = b g / (a - g) with g = ln(RH/100) + a t / (b + t). At 100 % it is the air
// temperature itself.
func DewPoint(air Celsius, humidityPct float64) (Celsius, error) {
	if !(air >= airLeast && air <= airMost) {
		return 0, &RangeError{"air_c", float64(air), "-40 to 60 °C", "measure the air beside the panel, in the shade"}
	}
	if !(humidityPct > 0 && humidityPct <= 100) {
		return 0, &RangeError{"humidity_pct", humidityPct, "over 0 and up to 100 %", "leave it out if it was not measured"}
	}
	if humidityPct == 100 {
		return air, nil
	}
	g := math.Log(humidityPct/100) + magnusA*float64(air)/float64(magnusB+air)
	// Rounding may lift a dew point at 99.99… % by a last digit; air cannot be drier and dew warmer than itself.
	return min(air, magnusB*Celsius(g)/Celsius(magnusA-g)), nil
}

// Margin is how far the panel stands above the dew point of the air around it; negative means that it is wet.
// Air and humidity are bounded as for [DewPoint].
func Margin(panel, air Celsius, humidityPct float64) (Kelvin, error) {
	dew, err := DewPoint(air, humidityPct)
	if err != nil {
		return 0, err
	}
	if err := checkPanel(panel); err != nil {
		return 0, err
	}
	return Kelvin(panel - dew), nil
}

// sameMargin is far below any thermometer's step and far above the rounding of a subtraction: a panel exactly at the
// least margin passes however the numbers were arrived at.
const sameMargin Kelvin = 1e-9

// DryEnough reports whether a margin reaches the least one wanted; a margin equal to it does. Coating practice wants
// the surface 3 K above the dew point (the practice that goes with ISO 8502-4); the figure is the caller's.
func DryEnough(margin, least Kelvin) bool { return margin >= least-sameMargin }

func checkPanel(panel Celsius) error {
	if !finite(float64(panel)) || panel < absoluteZero {
		return &RangeError{"panel_c", float64(panel), "a temperature of at least -273.15 °C", "leave it out if it was not measured"}
	}
	return nil
}
