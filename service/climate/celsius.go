package climate

import "fmt"

// Celsius is a temperature in °C. A difference of two temperatures is given in kelvin, as [Kelvin], so that the two
// cannot be mixed up when a value is turned into °F.
type Celsius float64

// Kelvin is a temperature difference, K.
type Kelvin float64

// absoluteZero is 0 K by the definition of the Celsius scale (SI Brochure, 9th edition, 2.3.1).
const absoluteZero Celsius = -273.15

// FromFahrenheit converts a temperature, not a difference: t_C = (t_F - 32) / 1.8 exactly (NIST SP 811, appendix B.8).
func FromFahrenheit(fahrenheit float64) Celsius { return Celsius((fahrenheit - 32) * 5 / 9) }

// Fahrenheit converts back: t_F = 1.8 t_C + 32 exactly (NIST SP 811, appendix B.8).
func (c Celsius) Fahrenheit() float64 { return float64(c)*9/5 + 32 }

// String prints one decimal, the step of an ordinary thermometer: "21.5 °C".
func (c Celsius) String() string { return fmt.Sprintf("%.1f °C", float64(c)) }

// String prints one decimal: "3.0 K".
func (k Kelvin) String() string { return fmt.Sprintf("%.1f K", float64(k)) }
