package strictyaml_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

func TestNearest(t *testing.T) {
	facts := []string{"paint.shade", "paint.softness", "panel.heat_c", "defect.severity"}
	for _, row := range []struct {
		name, word string
		among      []string
		want       string
	}{
		{"a letter left out", "paint.sofness", facts, "paint.softness"},
		{"a letter too many", "paint.shaade", facts, "paint.shade"},
		{"two letters swapped", "paint.sahde", facts, "paint.shade"},
		{"another letter", "defect.soverity", facts, "defect.severity"},
		{"letter case aside", "Paint.Softness", facts, "paint.softness"},
		{"nothing is near", "weather.rain", facts, ""},
		{"no candidates", "paint", nil, ""},
		{"of equals the first", "cat", []string{"bat", "hat"}, "bat"},
		{"the nearer before the earlier", "cats", []string{"bats", "cats"}, "cats"},
		{"a short word allows one slip", "cut", []string{"cat", "but"}, "cat"},
		{"a short word does not allow two", "cut", []string{"bat"}, ""},
		{"one letter has no neighbours", "x", []string{"y"}, ""},
		{"letters outside ASCII count as one", "größe", []string{"grösse", "große"}, "große"},
		{"an empty word", "", []string{"a"}, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, strictyaml.Nearest(row.word, row.among))
		})
	}
}

// The textbook pairs of the edit distance, each just inside or just outside the slips allowed for its length: kitten and
// sitting are 3 apart (Levenshtein, the usual worked example), ca and abc are 3 apart when no letter moves twice (the
// usual example that tells optimal string alignment from the unrestricted distance, where they are 2 apart).
func TestNearestOnTheTextbookPairs(t *testing.T) {
	assert.Empty(t, strictyaml.Nearest("kitten", []string{"sitting"}), "3 slips, 2 allowed")
	assert.Equal(t, "sitting kit", strictyaml.Nearest("kitten kit", []string{"sitting kit"}), "3 slips, 3 allowed")
	assert.Empty(t, strictyaml.Nearest("ca", []string{"abc"}))
	assert.Equal(t, "ac", strictyaml.Nearest("ca", []string{"ac"}))
}
