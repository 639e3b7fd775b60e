package catalogue

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// Money is an exact amount in the smallest unit of a currency: cents for EUR, whole yen for JPY.
type Money int64

// Currency is an ISO 4217 currency. The zero Currency has no code and refuses every amount.
type Currency struct {
	code   string
	places int
}

// ErrCurrency is the error of a code that is not three capital letters.
var ErrCurrency = errors.New("a currency is three capital letters, as EUR")

// CurrencyOf returns the currency of a code. Only the form is checked, since codes come and go; amounts have two decimal
// places unless ISO 4217 gives the code another number of minor units.
func CurrencyOf(code string) (Currency, error) {
	if len(code) != 3 || strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return Currency{}, fmt.Errorf("%q is not a currency code: %w", code, ErrCurrency)
	}
	return Currency{code: code, places: minorUnits(code)}, nil
}

// minorUnits is the number of decimal places after ISO 4217, list one (codes from memory).
func minorUnits(code string) int {
	switch code {
	case "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF":
		return 0
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		return 3
	}
	return 2
}

// Code is the three letters, as EUR.
func (c Currency) Code() string { return c.code }

// Places is the number of decimal places of an amount.
func (c Currency) Places() int { return c.places }

// MaxAmount is the highest amount Parse reads, in whole units of the currency.
const MaxAmount = 1_000_000_000

// Parse reads an amount as people write it: digits, with a decimal point and no more decimals than the currency has. The
// amount is exact: 9.5, 9.50 and "9.50" are the same 950 cents.
func (c Currency) Parse(text string) (Money, error) {
	whole, fraction, point := strings.Cut(text, ".")
	switch {
	case c.code == "":
		return 0, ErrCurrency
	case strings.HasPrefix(text, "-"):
		return 0, fmt.Errorf("%q is below zero", text)
	case !digits(whole) || (point && !digits(fraction)):
		return 0, fmt.Errorf("%q is not an amount; write it as %s", text, c.text(6850))
	case len(whole) > 1 && whole[0] == '0':
		return 0, fmt.Errorf("%q is not an amount; leave the leading zeros out", text)
	case len(fraction) > c.places:
		return 0, fmt.Errorf("%q has more decimals than %s has, which is %d", text, c.code, c.places)
	case len(whole) > len(strconv.Itoa(MaxAmount)):
		return 0, fmt.Errorf("%q is more than %d", text, MaxAmount)
	}
	minor, err := strconv.ParseInt(whole+fraction+strings.Repeat("0", c.places-len(fraction)), 10, 64)
	if err != nil {
		return 0, fmt.Errorf("%q is not an amount", text)
	}
	if minor > c.whole(MaxAmount) {
		return 0, fmt.Errorf("%q is more than %d", text, MaxAmount)
	}
	return Money(minor), nil
}

// Format writes an amount with its currency, as "68.00 EUR".
func (c Currency) Format(m Money) string { return c.text(m) + " " + c.code }

func (c Currency) text(m Money) string {
	sign := ""
	minor := uint64(m)
	if m < 0 {
		sign, minor = "-", -minor
	}
	unit := uint64(c.whole(1))
	if c.places == 0 {
		return sign + strconv.FormatUint(minor, 10)
	}
	return fmt.Sprintf("%s%d.%0*d", sign, minor/unit, c.places, minor%unit)
}

// whole is n whole units of the currency in its smallest.
func (c Currency) whole(n int64) int64 {
	for range c.places {
		n *= 10
	}
	return n
}

func digits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}
