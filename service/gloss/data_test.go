package gloss_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// exact is a meter that adds nothing of its own, as the published examples assume.
func exact(scale gloss.Scale) gloss.Meter { return gloss.Meter{Scale: scale} }

// lines returns a data file without its comments.
func lines(t testing.TB, name string) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	require.NoError(t, err)
	var kept []string
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			kept = append(kept, line)
		}
	}
	return kept
}

// samples reads a file of named samples.
func samples(t testing.TB, name string) map[string][]float64 {
	t.Helper()
	found := map[string][]float64{}
	for _, line := range lines(t, name) {
		key, values, ok := strings.Cut(line, ": ")
		require.True(t, ok, line)
		for _, word := range strings.Fields(values) {
			found[key] = append(found[key], float(t, word))
		}
	}
	return found
}

// table reads a file of comma separated numbers under one line of headings.
func table(t testing.TB, name string) [][]float64 {
	t.Helper()
	var rows [][]float64
	for _, line := range lines(t, name)[1:] {
		var row []float64
		for word := range strings.SplitSeq(line, ",") {
			row = append(row, float(t, word))
		}
		rows = append(rows, row)
	}
	return rows
}

func float(t testing.TB, word string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(word, 64)
	require.NoError(t, err)
	return v
}

// sample returns n values with just this mean and sample standard deviation, for examples that publish no more.
func sample(n int, mean, sd float64) []float64 {
	middle := float64(n-1) / 2
	var squares float64
	for i := range n {
		squares += (float64(i) - middle) * (float64(i) - middle)
	}
	unit := sd / math.Sqrt(squares/float64(n-1))
	values := make([]float64, n)
	for i := range values {
		values[i] = mean + unit*(float64(i)-middle)
	}
	return values
}

// oneSpot puts all readings on one spot.
func oneSpot(readings []float64) []gloss.Spot { return []gloss.Spot{{Name: "a", Readings: readings}} }

// singles puts each reading on a spot of its own, each raised by the same amount.
func singles(readings []float64, raise float64) []gloss.Spot {
	spots := make([]gloss.Spot, len(readings))
	for i, r := range readings {
		spots[i] = gloss.Spot{Name: "spot " + strconv.Itoa(i+1), Readings: []float64{r + raise}}
	}
	return spots
}
