package page

import (
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/catalogue"
)

// money is an amount with its currency: "68.50 EUR". It never passes through a float.
func money(m *glossladderv1.Money) string {
	currency, err := catalogue.CurrencyOf(m.GetCurrencyCode())
	if err != nil {
		return "no amount"
	}
	perUnit := int64(1)
	for range currency.Places() {
		perUnit *= 10
	}
	const nanos = 1_000_000_000
	return currency.Format(catalogue.Money(m.GetUnits()*perUnit + int64(m.GetNanos())/(nanos/perUnit)))
}

// moneySpan is a likely amount with its ends: "68.50 EUR (51.00 to 90.00)".
func moneySpan(s *glossladderv1.MoneySpan) string {
	bare := func(m *glossladderv1.Money) string { return strings.TrimSuffix(money(m), " "+m.GetCurrencyCode()) }
	return heldTogether(money(s.GetLikely()) + " (" + bare(s.GetLow()) + " to " + bare(s.GetHigh()) + ")")
}
