package catalogue_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	xcurrency "golang.org/x/text/currency"

	"github.com/glossladder/glossladder/service/catalogue"
)

func currency(t *testing.T, code string) catalogue.Currency {
	t.Helper()
	c, err := catalogue.CurrencyOf(code)
	require.NoError(t, err)
	return c
}

func TestParseAnAmount(t *testing.T) {
	for _, row := range []struct {
		code, text string
		want       catalogue.Money
	}{
		{"EUR", "68.00", 6800},
		{"EUR", "68", 6800},
		{"EUR", "9.5", 950},
		{"EUR", "0.01", 1},
		{"EUR", "0", 0},
		{"EUR", "1.15", 115}, // 1.15 as a binary fraction times 100 is 114.99999999999999
		{"EUR", "1000000000.00", 100_000_000_000},
		{"JPY", "7400", 7400},
		{"KWD", "21.055", 21055},
	} {
		t.Run(row.code+" "+row.text, func(t *testing.T) {
			got, err := currency(t, row.code).Parse(row.text)
			require.NoError(t, err)
			assert.Equal(t, row.want, got)
		})
	}
}

func TestParseRefusesAnAmount(t *testing.T) {
	for _, row := range []struct{ code, text, want string }{
		{"EUR", "9,50", `"9,50" is not an amount; write it as 68.50`},
		{"EUR", "", `"" is not an amount; write it as 68.50`},
		{"EUR", "9.", `"9." is not an amount; write it as 68.50`},
		{"EUR", ".5", `".5" is not an amount; write it as 68.50`},
		{"EUR", "1e3", `"1e3" is not an amount; write it as 68.50`},
		{"EUR", "1_000", `"1_000" is not an amount; write it as 68.50`},
		{"EUR", "€9", `"€9" is not an amount; write it as 68.50`},
		{"EUR", "009", `"009" is not an amount; leave the leading zeros out`},
		{"EUR", "-1", `"-1" is below zero`},
		{"EUR", "9.505", `"9.505" has more decimals than EUR has, which is 2`},
		{"JPY", "9.5", `"9.5" has more decimals than JPY has, which is 0`},
		{"EUR", "1000000000.01", `"1000000000.01" is more than 1000000000`},
		{"EUR", "99999999999999999999999999", `"99999999999999999999999999" is more than 1000000000`},
	} {
		t.Run(row.code+" "+row.text, func(t *testing.T) {
			_, err := currency(t, row.code).Parse(row.text)
			assert.EqualError(t, err, row.want)
		})
	}
	_, err := catalogue.Currency{}.Parse("1")
	assert.ErrorIs(t, err, catalogue.ErrCurrency)
}

func TestFormatIsReadBack(t *testing.T) {
	for _, code := range []string{"EUR", "JPY", "KWD"} {
		c := currency(t, code)
		for _, m := range []catalogue.Money{0, 1, 9, 10, 99, 100, 101, 6800, 123_456_789} {
			text := c.Format(m)
			back, err := c.Parse(text[:len(text)-4])
			require.NoError(t, err, text)
			assert.Equal(t, m, back, text)
		}
	}
	assert.Equal(t, "-0.05 EUR", currency(t, "EUR").Format(-5))
	assert.Equal(t, "-92233720368547758.08 EUR", currency(t, "EUR").Format(math.MinInt64))
}

func TestCurrencyCodes(t *testing.T) {
	for _, code := range []string{"", "EU", "EURO", "eur", "E1R", "ÄUR", "€"} {
		_, err := catalogue.CurrencyOf(code)
		assert.ErrorIs(t, err, catalogue.ErrCurrency, "%q", code)
	}
}

// Source of the decimal places: ISO 4217 minor units as golang.org/x/text/currency carries them (CLDR supplemental data).
// CLDR gives several currencies fewer decimals than ISO 4217 (those whose smallest coins are out of use); only codes on
// which both agree are compared.
func TestDecimalPlacesAgreeWithTheCurrencyTables(t *testing.T) {
	for _, code := range []string{
		"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF",
		"BHD", "JOD", "KWD", "LYD", "OMR", "TND",
		"EUR", "USD", "GBP", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "CAD", "AUD", "NZD", "ZAR", "INR", "BRL", "MXN", "CNY", "TRY", "AED", "SGD",
	} {
		unit, err := xcurrency.ParseISO(code)
		require.NoError(t, err, code)
		want, _ := xcurrency.Standard.Rounding(unit)
		assert.Equal(t, want, currency(t, code).Places(), code)
	}
}
