package gloss_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

func TestCoverageFactorIsStudentsQuantile(t *testing.T) {
	for _, row := range table(t, "t_quantiles.csv") {
		for i, confidence := range []float64{0.90, 0.95, 0.99} {
			got, err := gloss.CoverageFactor(row[0], confidence)
			require.NoError(t, err)
			assert.InEpsilon(t, row[i+1], got, 1e-9, "df %v at %v", row[0], confidence)
		}
	}
}

// Critical values as printed by the sources; a half unit in the last place.
func TestCoverageFactorAgreesWithPrintedTables(t *testing.T) {
	for name, c := range map[string]struct{ df, confidence, want, tolerance float64 }{
		"GUM H.1, 99 % at 16":                       {16, 0.99, 2.92, 0.005},
		"GUM H.1, 95 % at 16":                       {16, 0.95, 2.12, 0.005},
		"NIST/SEMATECH 7.2.2, 5 % two-sided at 9":   {9, 0.95, 2.262, 0.0005},
		"NIST/SEMATECH 7.3.1, 5 % one-sided at 16":  {16, 0.90, 1.746, 0.0005},
		"NIST/SEMATECH 1.3.5.2, 5 % two-sided, 194": {194, 0.95, 1.9723, 0.00005},
		"Analyst 108 (1983) 64, three readings":     {2, 0.95, 4.303, 0.0005},
		"normal distribution":                       {math.Inf(1), 0.95, 1.959963984540, 1e-11},
	} {
		got, err := gloss.CoverageFactor(c.df, c.confidence)
		require.NoError(t, err, name)
		assert.InDelta(t, c.want, got, c.tolerance, name)
	}
}

// Exact quantile and series must meet where one hands over to the other, in every tail that can be asked for.
func TestCoverageFactorIsSmoothOverLargeDF(t *testing.T) {
	for _, confidence := range []float64{0.5, 0.9, 0.95, 0.99, 0.9999} {
		inside, err := gloss.CoverageFactor(1e4, confidence)
		require.NoError(t, err)
		outside, err := gloss.CoverageFactor(math.Nextafter(1e4, 2e4), confidence)
		require.NoError(t, err)
		assert.InEpsilon(t, inside, outside, 1e-8, "confidence %v", confidence)
	}
}

func TestCoverageFactorFallsWithDF(t *testing.T) {
	for _, confidence := range []float64{0.5, 0.95, 0.9999} {
		before := math.Inf(1)
		for df := 1.0; df < 1e7; df *= 1.3 {
			got, err := gloss.CoverageFactor(df, confidence)
			require.NoError(t, err)
			require.Less(t, got, before, "df %v, confidence %v", df, confidence)
			before = got
		}
	}
}

// JCGM 100:2008 (GUM), H.1, in nanometres. Its figures are rounded at every step, hence about 1 % of tolerance; it cuts
// the degrees of freedom to 16, which Combine does not.
func TestCombineWorksTheEndGauge(t *testing.T) {
	comparison, err := gloss.Combine(0.99,
		gloss.Component{Source: "repeats", Standard: 5.8, DF: 24},
		gloss.Component{Source: "comparator, random", Standard: 3.9, DF: 5},
		gloss.Component{Source: "comparator, systematic", Standard: 6.7, DF: 8})
	require.NoError(t, err)
	assert.InDelta(t, 9.7, comparison.Standard, 0.05)
	assert.InDelta(t, 25.6, comparison.DF, 0.25)

	length, err := gloss.Combine(0.99,
		gloss.Component{Source: "standard", Standard: 25, DF: 18},
		gloss.Component{Source: "comparison", Standard: comparison.Standard, DF: comparison.DF},
		gloss.Component{Source: "expansion", Standard: 2.9, DF: 50},
		gloss.Component{Source: "temperature", Standard: 16.6, DF: 2})
	require.NoError(t, err)
	assert.InEpsilon(t, 32, length.Standard, 0.012)
	assert.InEpsilon(t, 1002, length.Standard*length.Standard, 0.01)
	assert.InDelta(t, 16.7, length.DF, 0.1)
	assert.InEpsilon(t, 93, length.Expanded, 0.015)

	cut, err := gloss.CoverageFactor(math.Floor(length.DF), 0.99)
	require.NoError(t, err)
	assert.InEpsilon(t, 93, cut*length.Standard, 0.01)
}

// GOST 9.407-2015 asks gloss meters for ±2 GU; the rule for a rectangle is GUM 4.3.7. The display step rule is GUM
// F.2.2.1 (clause from memory), checked against its own meaning: the spread of a rectangle one step wide.
func TestTypeB(t *testing.T) {
	assert.InDelta(t, 1.1547, gloss.Rectangular(2), 0.00005)
	assert.InDelta(t, 0.288675, gloss.DisplayStep(1), 5e-7)
	assert.InDelta(t, 0.0288675, gloss.DisplayStep(0.1), 5e-8)
	assert.InDelta(t, gloss.Rectangular(0.5), gloss.DisplayStep(1), 1e-15)

	var squares float64
	const steps = 10000
	for i := range steps {
		off := (float64(i)+0.5)/steps - 0.5
		squares += off * off
	}
	assert.InEpsilon(t, math.Sqrt(squares/steps), gloss.DisplayStep(1), 1e-6)
}

func TestCombineOfKnownFiguresHasNoEndOfDF(t *testing.T) {
	u, err := gloss.Combine(0.95, gloss.Component{Source: "a", Standard: 3, DF: math.Inf(1)}, gloss.Component{Source: "b", Standard: 4, DF: math.Inf(1)})
	require.NoError(t, err)
	assert.InDelta(t, 5, u.Standard, 1e-15)
	assert.True(t, math.IsInf(u.DF, 1))
	assert.InDelta(t, 1.959964, u.K, 1e-6)
}

func TestCombineRefuses(t *testing.T) {
	good := gloss.Component{Source: "repeats", Standard: 1, DF: 4}
	for name, c := range map[string]struct {
		confidence float64
		part       gloss.Component
		want       string
	}{
		"percent":      {95, good, "confidence: 95 is outside 0.5 to 0.9999; give 0.95 for 95 %"},
		"the tail":     {0.05, good, "confidence: 0.05 is outside 0.5 to 0.9999; give 0.95 for 95 %"},
		"negative":     {0.95, gloss.Component{Source: "repeats", Standard: -1, DF: 4}, "repeats standard uncertainty: -1 is not 0 or more"},
		"not a number": {0.95, gloss.Component{Source: "repeats", Standard: math.NaN(), DF: 4}, "repeats standard uncertainty: NaN is not 0 or more"},
		"no freedom":   {0.95, gloss.Component{Source: "repeats", Standard: 1}, "repeats degrees of freedom: 0 is not 1 or more"},
		"nothing":      {0.95, gloss.Component{Source: "repeats", DF: 4}, gloss.ErrNoSpread.Error()},
	} {
		_, err := gloss.Combine(c.confidence, c.part)
		assert.EqualError(t, err, c.want, name)
	}
}
