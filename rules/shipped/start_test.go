package shipped_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// polishable are the kinds of mark that a machine may be put to.
var polishable = []string{
	"wash-marks", "deep-scratches", "holograms", "haze", "oxidation", "water-spot-etching", "organic-etching", "sanding-marks",
}

// startGrid calls ask for every combination of the facts that start could turn on, softness and severity aside.
func startGrid(d *desk, ask func(what string)) {
	for _, kind := range d.words("defect.kind") {
		for _, shade := range d.words("paint.shade") {
			for _, goal := range d.words("goal.level") {
				for _, nail := range []any{true, false, unknown} {
					d.clear()
					d.put("defect.kind", kind)
					d.put("paint.shade", shade)
					d.put("goal.level", goal)
					d.put("defect.catches_nail", nail)
					ask(kind)
				}
			}
		}
	}
}

func TestStartNeverFallsAsMarksGetWorseOrPaintGetsHarder(t *testing.T) {
	d := newDesk(t, "start")
	softness := d.set.Schema().Fact(d.id("paint.softness")).Words
	startGrid(d, func(string) {
		softer := make([]int, 11)
		for _, s := range softness {
			d.put("paint.softness", s)
			milder := 0
			for k := range 11 {
				d.put("defect.severity", float64(k)/2)
				now := strength(d.step())
				if now < milder || now < softer[k] {
					t.Fatalf("the start falls to %s: %s", steps[now], d)
				}
				milder, softer[k] = now, now
			}
		}
	})
}

func TestStartTakesUnknownSoftnessForMedium(t *testing.T) {
	d := newDesk(t, "start")
	startGrid(d, func(string) {
		for k := range 11 {
			d.put("defect.severity", float64(k)/2)
			d.put("paint.softness", "medium")
			medium := d.step()
			d.put("paint.softness", unknown)
			require.Equal(t, medium, d.step(), d)
		}
	})
}

func TestStartOfEveryKindOfMark(t *testing.T) {
	d := newDesk(t, "start")
	kinds := d.set.Schema().Fact(d.id("defect.kind")).Words
	startGrid(d, func(kind string) {
		require.True(t, kind == unknown || slices.Contains(kinds, kind))
		for _, s := range d.words("paint.softness") {
			d.put("paint.softness", s)
			for _, severity := range []any{0.0, 0.5, 2.5, 5.0, unknown} {
				d.put("defect.severity", severity)
				step := d.step()
				switch {
				case !slices.Contains(polishable, kind) || severity == 0.0:
					require.Equal(t, "none", step, d)
				case severity == unknown:
					require.Equal(t, "finish", step, d)
				default:
					require.NotEqual(t, "none", step, d)
				}
				if kind == "haze" || kind == "holograms" {
					require.NotEqual(t, "cut", step, d)
				}
			}
		}
	})
}

func TestNoCutIntoAScratchBeforeTheNailIsTried(t *testing.T) {
	d := newDesk(t, "start")
	d.put("defect.kind", "deep-scratches")
	for _, s := range d.words("paint.softness") {
		d.put("paint.softness", s)
		for k := range 11 {
			d.put("defect.severity", float64(k)/2)
			for _, nail := range []any{true, unknown} {
				d.put("defect.catches_nail", nail)
				require.NotEqual(t, "cut", d.step(), d)
			}
		}
	}
}

func TestLightMarksStartMildOnSoftPaintAndHigherOnVeryHard(t *testing.T) {
	d := newDesk(t, "start")
	d.put("defect.kind", "wash-marks")
	d.put("defect.severity", 2.0)
	d.put("paint.shade", "dark")
	for _, goal := range []string{"enhance", "correct", "show", unknown} {
		d.put("goal.level", goal)
		d.put("paint.softness", "soft")
		assert.Equal(t, "finish", d.step(), d)
		d.put("paint.softness", "very-hard")
		assert.Equal(t, "polish", d.step(), d)
	}
}
