package film_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// readRows reads a table of numbers from testdata; its first lines name the source, the next the columns.
func readRows(t *testing.T, name string) (rows [][]float64) {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	require.NoError(t, err)
	for _, record := range records[1:] {
		row := make([]float64, len(record))
		for i, cell := range record {
			row[i], err = strconv.ParseFloat(cell, 64)
			require.NoError(t, err, "%s: %v", name, record)
		}
		rows = append(rows, row)
	}
	return rows
}

func TestMilTable(t *testing.T) {
	rows := readRows(t, "mil.csv")
	require.Len(t, rows, 17)
	for _, row := range rows {
		mil, um := row[0], film.Microns(row[1])
		// Half of the last printed digit of a mil, in µm and in mil.
		assert.InDelta(t, float64(um), float64(film.FromMil(mil)), 0.00005*25.4, "%g mil", mil)
		assert.InDelta(t, mil, um.Mil(), 0.00005, "%s", um)
	}
}

func TestMilComesBackUnchanged(t *testing.T) {
	for mil := 0.0; mil < 20; mil += 0.1 {
		assert.InDelta(t, mil, film.FromMil(mil).Mil(), 1e-12)
	}
}

// A service page of GM prints two pairs that cannot both be right: "0.059-0.078 mm (1.5-2 mils)" and "0.5 mils
// (0.019 in)". The mil figures are the ones meant; the conversion must not be bent to the other side.
func TestMisprintedPairsDisagreeWithTheDefinition(t *testing.T) {
	for name, tt := range map[string]struct{ mil, printedUm, trueUm float64 }{
		"lower end of a clear": {1.5, 59, 38.1},
		"upper end of a clear": {2, 78, 50.8},
		"most removed":         {0.5, 0.019 * 25_400, 12.7},
	} {
		t.Run(name, func(t *testing.T) {
			got := float64(film.FromMil(tt.mil))
			assert.InDelta(t, tt.trueUm, got, 1e-12)
			assert.Greater(t, tt.printedUm/got, 1.5, "the misprint agrees after all")
		})
	}
}

func TestMicronsReadsLikeAGauge(t *testing.T) {
	assert.Equal(t, "104.3 µm", film.Microns(104.26).String())
	assert.Equal(t, "-2.0 µm", film.Microns(-2).String())
}
