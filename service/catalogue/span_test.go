package catalogue_test

import (
	"fmt"
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
)

// Every number is read at both ends of its span and refused just outside.
func TestSpansOfNumbers(t *testing.T) {
	good, err := os.ReadFile("testdata/shop.yaml")
	require.NoError(t, err)
	for _, row := range []struct{ key, below, lowest, highest, above string }{
		{"pad_mm", "19.9", "20", "250", "250.1"},
		{"orbit_mm", "0.9", "1", "40", "40.1"},
		{"speed_min_opm", "99", "100", "4800", "15001"},
		{"speed_max_opm", "99", "1800", "15000", "15001"},
		{"speed_min_rpm", "99", "100", "2500", "6001"},
		{"speed_max_rpm", "99", "600", "6000", "6001"},
		{"vibration_ms2", "0", "0.1", "50", "50.1"},
		{"vibration_k_ms2", "-0.1", "0", "25", "25.1"},
		{"noise_dba", "39", "40", "130", "131"},
		{"mass_kg", "0", "0.01", "20", "20.1"},
		{"diameter_mm", "19", "20", "250", "251"},
		{"thickness_mm", "1.9", "2", "80", "80.1"},
		{"life_vehicles", "0", "0.1", "1000", "1001"},
		{"abrasive_um", "0", "0.01", "50", "50.1"},
		{"pack_ml", "9", "10", "25000", "25001"},
		{"per_section_ml", "0", "0.1", "50", "50.1"},
		{"prime_ml", "-1", "0", "100", "100.1"},
		{"pack_pieces", "0", "1", "1000", "1001"},
		{"per_panel_pieces", "0", "0.01", "20", "20.1"},
		{"uses", "0", "1", "1000", "1001"},
		{"per_panel_ml", "0", "0.01", "500", "501"},
		{"pack_m", "0", "1", "1000", "1001"},
		{"per_panel_m", "0", "0.01", "100", "101"},
	} {
		t.Run(row.key, func(t *testing.T) {
			first := regexp.MustCompile(`\b` + row.key + `: [0-9.]+`)
			at := first.FindIndex(good)
			require.NotNil(t, at)
			with := func(v string) string {
				return fmt.Sprintf("%s%s: %s%s", good[:at[0]], row.key, v, good[at[1]:])
			}
			for _, v := range []string{row.lowest, row.highest} {
				_, problems := catalogue.Parse("shop.yaml", []byte(with(v)))
				assert.Empty(t, problems, v)
			}
			for _, v := range []string{row.below, row.above} {
				_, problems := catalogue.Parse("shop.yaml", []byte(with(v)))
				require.Len(t, problems, 1, v)
				assert.Regexp(t, fmt.Sprintf(`^%s is %s\b.*`, row.key, v), problems[0].Message)
				assert.Regexp(t, `^from \S+ to \S+ is allowed$`, problems[0].Hint)
			}
		})
	}
}
