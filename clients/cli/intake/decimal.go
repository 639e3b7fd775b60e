package intake

import (
	"math/big"
	"strings"
)

// maxDigits bounds how long a number may be: more digits than any instrument shows.
const maxDigits = 32

// decimal reads digits with a minus sign before and a decimal point inside if wanted, exactly. Otherwise it says why not.
func decimal(text string) (value *big.Rat, why string) {
	whole, fraction, point := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	switch {
	case len(text) > maxDigits:
		return nil, "write fewer digits"
	case strings.HasPrefix(text, "+"):
		return nil, "leave the plus sign out"
	case strings.Count(text, ",") == 1 && !point:
		return nil, "write a point: " + strings.Replace(text, ",", ".", 1)
	case point && whole == "" && digits(fraction):
		return nil, "write a zero before the point"
	case point && digits(whole) && fraction == "":
		return nil, "write digits after the point"
	case !digits(whole) || point && !digits(fraction):
		return nil, "write it in decimal digits, as 12 or -3.5"
	case len(whole) > 1 && whole[0] == '0':
		return nil, "leave the leading zeros out"
	}
	value, _ = new(big.Rat).SetString(text)
	return value, ""
}

func digits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}
