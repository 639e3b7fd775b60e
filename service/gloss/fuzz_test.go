package gloss_test

import (
	"math"
	"testing"

	"github.com/glossladder/glossladder/service/gloss"
)

// FuzzGain holds any gain that is given at all to what every gain must be: finite, inside its own interval, judged
// alike by every door, and with an outlook that agrees with the verdict.
func FuzzGain(f *testing.F) {
	f.Add(80.0, 81.0, 85.0, 86.0, 0.1, 0.95, 2.0, true)
	f.Add(80.0, 80.0, 80.0, 80.0, 1.0, 0.5, 0.0, false)
	f.Add(0.0, 2037.0, 2037.0, 0.0, 0.0, 0.9999, 5.0, true)
	f.Add(1e-300, 2e-300, 3e-300, 5e-300, 1e-308, 0.95, 1e-300, false)
	f.Fuzz(func(t *testing.T, b1, b2, a1, a2, step, confidence, smallest float64, paired bool) {
		trial := before(gloss.Meter{Scale: gloss.Gloss20, Resolution: step}, oneSpot([]float64{b1, b2}), oneSpot([]float64{a1, a2}))
		if paired {
			trial.Before, trial.After = singles([]float64{b1, b2}, 0), singles([]float64{a1, a2}, 0)
		}
		gain, err := trial.Gain(confidence)
		if err != nil {
			return
		}
		for _, v := range []float64{gain.Mean, gain.Low, gain.High, gain.Standard} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("not finite: %+v", gain)
			}
		}
		if gain.Low > gain.Mean || gain.Mean > gain.High || math.IsNaN(gain.DF) || gain.DF < 1-1e-9 {
			t.Fatalf("not an interval: %+v", gain)
		}
		verdict, err := gain.Judge(smallest)
		if err != nil {
			return
		}
		outlook, err := gain.Outlook(smallest, 20)
		if err != nil {
			t.Fatal(err)
		}
		// A loss is settled whatever the limit, and so is any other verdict but one.
		if outlook.Settled == (verdict == gloss.NotConclusive) {
			t.Fatalf("verdict %v, outlook %+v, gain %+v", verdict, outlook, gain)
		}
		if !outlook.Settled && (len(outlook.Remedies) == 0) == (outlook.Obstacle == 0) {
			t.Fatalf("neither a remedy nor an obstacle, or both: %+v", outlook)
		}
	})
}
