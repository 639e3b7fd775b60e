package gloss_test

import (
	"testing"

	"github.com/glossladder/glossladder/service/gloss"
)

func benchTrial() gloss.BeforeAfter {
	b, a := singles(sample(3, 80, 1), 0), singles(sample(3, 83, 1.5), 0)
	for i := range b {
		b[i].Readings = append(b[i].Readings, b[i].Readings[0]+0.3, b[i].Readings[0]-0.2)
		a[i].Readings = append(a[i].Readings, a[i].Readings[0]+0.2, a[i].Readings[0]-0.4)
	}
	return before(gloss.Meter{Scale: gloss.Gloss20, Accuracy: 1, Resolution: 0.1}, b, a)
}

func BenchmarkGain(b *testing.B) {
	trial := benchTrial()
	for b.Loop() {
		if _, err := trial.Gain(0.95); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOutlook(b *testing.B) {
	gain, err := benchTrial().Gain(0.95)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := gain.Outlook(2.9, 1000); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMeasure(b *testing.B) {
	trial := benchTrial()
	for b.Loop() {
		if _, err := gloss.Measure(trial.Meter, trial.Before, 0.95); err != nil {
			b.Fatal(err)
		}
	}
}
