package gloss_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// ISO 2813 and ASTM D523: 20 degrees above 70 at 60 degrees, 85 degrees below 10. The wording is strict at both ends.
func TestScaleForFollowsTheStandard(t *testing.T) {
	for name, c := range map[string]struct {
		at60 float64
		want gloss.Scale
	}{
		"dead matt":       {0, gloss.Gloss85},
		"just below ten":  {math.Nextafter(10, 0), gloss.Gloss85},
		"ten itself":      {10, gloss.Gloss60},
		"middle":          {45, gloss.Gloss60},
		"seventy itself":  {70, gloss.Gloss60},
		"just above":      {math.Nextafter(70, 71), gloss.Gloss20},
		"good clear coat": {88, gloss.Gloss20},
		"mirror":          {gloss.Gloss60.Max(), gloss.Gloss20},
	} {
		got, err := gloss.ScaleFor(c.at60)
		require.NoError(t, err, name)
		assert.Equal(t, c.want, got, name)
	}
}

func TestScaleForRefusesWhatNoMeterReads(t *testing.T) {
	for _, bad := range []float64{-0.1, 1000, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := gloss.ScaleFor(bad)
		var limits *gloss.RangeError
		require.ErrorAs(t, err, &limits, "%v", bad)
		assert.Equal(t, "gloss at 60°", limits.Field)
	}
}
