package film_test

import (
	"testing"

	"github.com/glossladder/glossladder/service/film"
)

// Five spots of three readings: what a careful inspection gives for one panel.
func BenchmarkPanelToBudget(b *testing.B) {
	panel := steel(spot("a", 104, 106, 105), spot("b", 111, 110, 113), spot("c", 99, 101, 100), spot("d", 108, 107, 108), spot("e", 115, 114, 112))
	b.ReportAllocs()
	for b.Loop() {
		m, err := film.Measure(ordinary, panel, 95)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := quarter.Signs(m, nil); err != nil {
			b.Fatal(err)
		}
		if _, err := quarter.Usable(&m, film.Removal{}); err != nil {
			b.Fatal(err)
		}
	}
}
