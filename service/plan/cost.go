package plan

import (
	"math/big"

	"github.com/glossladder/glossladder/service/catalogue"
)

// Cost is the money of a plan, exact in the currency's smallest unit. Each amount is rounded once, halves away from zero.
type Cost struct {
	Currency  catalogue.Currency
	Materials catalogue.Money
	Labour    MoneySpan
	Total     MoneySpan
}

// MoneySpan is an amount at least, likely and at most.
type MoneySpan struct{ Low, Likely, High catalogue.Money }

func costOf(shop *catalogue.Catalogue, work Span, materials []Material) Cost {
	out := Cost{Currency: shop.Currency()}
	for _, m := range materials {
		out.Materials += m.Price
	}
	const hour = 60
	out.Labour = MoneySpan{
		portion(shop.HourlyRate(), work.Low, hour), portion(shop.HourlyRate(), work.Likely, hour), portion(shop.HourlyRate(), work.High, hour),
	}
	out.Total = MoneySpan{out.Labour.Low + out.Materials, out.Labour.Likely + out.Materials, out.Labour.High + out.Materials}
	return out
}

// portion is the price of a quantity of something that is priced for a whole: price · quantity / whole. It is reckoned in
// fractions of whole numbers, since an amount of money is never a float.
func portion(price catalogue.Money, quantity, whole float64) catalogue.Money {
	share := new(big.Rat).Quo(rational(quantity), rational(whole))
	return rounded(share.Mul(share, new(big.Rat).SetInt64(int64(price))))
}

// rational is a quantity as people write it: 2.5 is 5/2, and 0.1 a tenth, which no float is.
func rational(v float64) *big.Rat {
	const perUnit = 1_000_000
	return big.NewRat(int64(v*perUnit+0.5), perUnit)
}

// rounded is a fraction that is not below zero to the nearest whole, halves up.
func rounded(r *big.Rat) catalogue.Money {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	twice.Add(twice, r.Denom())
	return catalogue.Money(twice.Quo(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2))).Int64())
}
