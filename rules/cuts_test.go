package rules_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// Between two cuts no value of the number changes the answer, whatever else is known.
func TestBetweenCutsAllValuesAreAlike(t *testing.T) {
	var d rules.Decision
	seen := 0
	randomTables(t, 800, func(what string, s *rules.Schema, table *rules.Table, p point) {
		for i, f := range smallFacts()[:2] {
			id := rules.FactID(i)
			if table.Ties(id) {
				continue
			}
			cuts := table.Cuts(id)
			last, key := -1, ""
			for _, v := range f.values {
				stretch := 0
				for stretch < len(cuts) && cuts[stretch] <= v.(float64) {
					stretch++
				}
				p[i] = v
				table.Decide(p.input(t, s), &d)
				now := answerKey(table, &d)
				if stretch == last {
					require.Equal(t, key, now, "%s, %s = %v", what, f.name, v)
					seen++
				}
				last, key = stretch, now
			}
		}
	})
	require.Greater(t, seen, 500)
}

func TestCutsAreForNumbers(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	water, _ := set.Schema().FactID("dough.water_pct")
	flour, _ := set.Schema().FactID("dough.flour")
	assert.NotEmpty(t, heat.Cuts(water))
	assert.IsIncreasing(t, heat.Cuts(water))
	assert.Empty(t, heat.Cuts(flour))
}
