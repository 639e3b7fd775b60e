package advisor_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

func BenchmarkRecommend(b *testing.B) {
	a := shop(b)
	for _, row := range []struct {
		name   string
		change func(*advisor.Inspection)
	}{
		{"one panel, everything measured", panel(func(*advisor.Panel) {})},
		{"one panel, film not measured", panel(func(p *advisor.Panel) { p.Film = nil })},
		{"one panel, no readings at all", panel(func(p *advisor.Panel) { p.Film, p.Gloss = nil, nil })},
	} {
		b.Run(row.name, func(b *testing.B) {
			in := inspection(row.change)
			b.ReportAllocs()
			for b.Loop() {
				_, err := a.Recommend(in)
				require.NoError(b, err)
			}
		})
	}
}

func BenchmarkRecommendVehicle(b *testing.B) {
	a := shop(b)
	in := inspection()
	for range 11 {
		in.Panels = append(in.Panels, in.Panels[0])
	}
	b.ReportAllocs()
	for b.Loop() {
		_, err := a.Recommend(in)
		require.NoError(b, err)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(in.Panels)), "µs/panel")
}

func BenchmarkJudgeTrial(b *testing.B) {
	a := shop(b)
	in := inspection()
	trials := []advisor.Trial{trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)}
	b.ReportAllocs()
	for b.Loop() {
		_, err := a.JudgeTrial(in, "bonnet", trials)
		require.NoError(b, err)
	}
}

// Explain asks again with every single thing otherwise.
func BenchmarkExplain(b *testing.B) {
	a := shop(b)
	in := inspection()
	trials := []advisor.Trial{trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)}
	for name, ask := range map[string]advisor.Question{"inspection": {Would: "cut"}, "trial": {Trials: trials}} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := a.Explain(in, ask)
				require.NoError(b, err)
			}
		})
	}
}
