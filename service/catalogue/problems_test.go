package catalogue_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/catalogue"
)

// The golden list is rewritten by GOLDEN=write go test ./service/catalogue, and read by a person before it is kept.
func TestReadReportsEveryProblem(t *testing.T) {
	src, err := os.ReadFile("testdata/broken.yaml")
	require.NoError(t, err)
	got, err := catalogue.Read("broken.yaml", src)
	require.Error(t, err)
	assert.Nil(t, got)
	text := err.Error() + "\n"
	if os.Getenv("GOLDEN") == "write" {
		require.NoError(t, os.WriteFile("testdata/broken.golden", []byte(text), 0o644))
	}
	want, err := os.ReadFile("testdata/broken.golden")
	require.NoError(t, err)
	assert.Equal(t, string(want), text)
}

// Each row changes one thing of the invented shop and spoils it in one way.
func TestReadRefuses(t *testing.T) {
	good, err := os.ReadFile("testdata/shop.yaml")
	require.NoError(t, err)
	for _, row := range []struct{ name, old, new, want string }{
		{"a currency in small letters", "currency: EUR", "currency: eur", `shop.yaml:2:11: currency is "eur"; a currency is three capital letters, as EUR`},
		{"no currency", "currency: EUR\n", "", `shop.yaml:2:1: the catalogue has no currency`},
		{"no rate", `hourly_rate: "68.00"`, "", `shop.yaml:2:1: the catalogue has no hourly_rate`},
		{"a rate in thousandths", `"68.00"`, `"68.005"`, `shop.yaml:3:14: hourly_rate: "68.005" has more decimals than EUR has, which is 2`},
		{"a negative price", `"9.50"`, `"-9.50"`, `shop.yaml:31:86: price: "-9.50" is below zero`},
		{"no machines", "machines:", "consumables_of_old:", "shop.yaml:2:1: the catalogue has no machines"},
		{"pads that are no list", "liquids:\n", "liquids: many\nold:\n", "shop.yaml:36:10: liquids is a single value; write a list of maps, each after a dash"},
		{"an orbit too long", "orbit_mm: 15", "orbit_mm: 40.5", "shop.yaml:9:15: orbit_mm is 40.5 mm; from 1 to 40 is allowed"},
		{"an orbit of zero", "orbit_mm: 15", "orbit_mm: 0", "shop.yaml:9:15: orbit_mm is 0 mm; from 1 to 40 is allowed"},
		{"an orbital without an orbit", "orbit_mm: 15\n    ", "", `shop.yaml:6:5: machine "panel-orbital" has no orbit_mm`},
		{"a rotary with an orbit", "mass_kg: 2.1", "orbit_mm: 12", "shop.yaml:27:15: orbit_mm does not go with rotary; take it out, or change the class"},
		{"speeds the wrong way round", "speed_min_opm: 1800", "speed_min_opm: 4900", "shop.yaml:10:20: speed_min_opm is 4900, above speed_max_opm, which is 4800; swap them?"},
		{"an uncertainty of nothing", "    vibration_ms2: 8.0\n", "", "shop.yaml:12:22: vibration_k_ms2 says how sure vibration_ms2 is, which is left out; give both or neither"},
		{"an id twice, of two kinds", "id: soft-130", "id: applicator", `shop.yaml:31:10: the id "applicator" is given twice; the first is on line 28`},
		{"an id in capitals", "id: soft-130", "id: Soft_130", `shop.yaml:31:10: the id "Soft_130" is not in kebab case; use small letters and digits in words joined by single dashes, at most 64`},
		{"a class nearly right", "class: microfibre", "class: microfiber", `shop.yaml:34:28: "microfiber" is not a class of pad "fibre-130"; did you mean microfibre?`},
		{"a class of no kind", "class: microfibre", "class: granite", `shop.yaml:34:28: "granite" is not a class of pad "fibre-130"; it is one of finishing-foam, polishing-foam, cutting-foam, microfibre, wool`},
		{"a towel in metres", "pack_pieces: 20", "pack_pieces: 20, pack_m: 2", "shop.yaml:41:77: pack_m does not go with towel; take it out, or change the class"},
		{"a tape without a length", "pack_m: 50, ", "", `shop.yaml:43:5: consumable "edge-tape" has no pack_m`},
		{"a key misspelt", "abrasive_um", "abrasiv_um", `shop.yaml:37:46: abrasiv_um is not a key of liquid "last-haze"; did you mean abrasive_um?`},
		{"a key of no kind", "abrasive_um", "colour", `shop.yaml:37:46: colour is not a key of liquid "last-haze"; its keys are id, class, abrasive_um, price, pack_ml, per_section_ml, prime_ml`},
		{"no instruments", "instruments:", "tools:", "shop.yaml:2:1: the catalogue has no instruments"},
		{"no gauge", "film_gauge", "gauge", `shop.yaml:46:3: instruments has no film_gauge`},
		{"a gauge of no kind", "kind: magnetic-eddy", "kind: sonar", `shop.yaml:47:22: "sonar" is not a kind of film_gauge; it is one of magnetic-eddy, ultrasonic`},
		{"a perfect gauge", "accuracy_um: 1.0, accuracy_pct: 1.0", "accuracy_um: 0, accuracy_pct: 0", "shop.yaml:47:15: film_gauge states no error at all; no gauge is perfect; give accuracy_um, accuracy_pct or both"},
		{"a meter without steps", "resolution_gu: 0.1", "resolution_gu: 0", "shop.yaml:46:50: resolution_gu is 0 GU; from 0.01 to 1 is allowed"},
		{"a number in quotes", "prime_ml: 6", `prime_ml: "6"`, `shop.yaml:37:126: prime_ml: expected a number, found the text "6"; take the quotes away`},
	} {
		t.Run(row.name, func(t *testing.T) {
			require.Contains(t, string(good), row.old)
			src := strings.Replace(string(good), row.old, row.new, 1)
			_, problems := catalogue.Parse("shop.yaml", []byte(src))
			assert.Contains(t, strings.Split(problems.Error(), "\n"), row.want)
		})
	}
}

func TestReadPassesOnWhatIsNoYAML(t *testing.T) {
	_, err := catalogue.Read("shop.yaml", []byte("pads: [\n"))
	var problems strictyaml.Problems
	require.ErrorAs(t, err, &problems)
	require.Len(t, problems, 1)
	_, err = catalogue.Read("shop.yaml", []byte("- a\n"))
	assert.EqualError(t, err, "shop.yaml:1:1: the catalogue is a list; write a map with the keys currency, hourly_rate, opening, limits, instruments, machines, pads, liquids, consumables")
}

// FuzzRead: nothing panics; either a catalogue that keeps its promises, or problems that lie inside the file.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"testdata/shop.yaml", "testdata/broken.yaml"} {
		src, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		c, problems := catalogue.Parse("f.yaml", src)
		require.Equal(t, c == nil, len(problems) > 0)
		lines := strings.Split(strings.TrimPrefix(string(src), "\ufeff"), "\n")
		for _, p := range problems {
			require.True(t, 1 <= p.Line && p.Line <= len(lines) && 1 <= p.Col && p.Col <= len([]rune(lines[p.Line-1]))+1, "%s", p)
		}
		if c == nil {
			return
		}
		require.NotEmpty(t, c.AllMachines())
		require.NotEmpty(t, c.AllPads())
		require.NotEmpty(t, c.AllLiquids())
		require.Len(t, c.Currency().Code(), 3)
		for _, m := range c.AllMachines() {
			_, orbits := m.OrbitMm.Value()
			require.Equal(t, m.Class.Orbits(), orbits, "%+v", m)
		}
		for _, x := range c.AllConsumables() {
			require.True(t, x.Pack > 0 && x.PerPanel > 0 && x.Uses >= 1 && x.Price >= 0, "%+v", x)
		}
	})
}
