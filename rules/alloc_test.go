package rules_test

import (
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

func TestDecidingDoesNotAllocate(t *testing.T) {
	s := gen.Schema()
	rows := gen.Table(rand.New(rand.NewPCG(1, 1)), 1_000, 4, 8)
	for _, hit := range []rules.Hit{rules.First, rules.Priority, rules.Any, rules.Collect} {
		table := build(t, s, hit, rows)
		in := gen.Input(s, rows[700].Inside)
		in.Clear(3)
		in.Clear(8)
		var sc rules.Scratch
		var d rules.Decision
		table.First(in, &sc)
		table.Decide(in, &d)
		assert.Zero(t, testing.AllocsPerRun(50, func() { table.First(in, &sc) }), "first under %s", hit)
		assert.Zero(t, testing.AllocsPerRun(50, func() { table.Decide(in, &d) }), "decide under %s", hit)
	}
}

// One set serves many readers; the race detector watches.
func TestASetServesManyReaders(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			in := give(t, set.Schema(), map[string]any{"dough.rise_h": 4, "dough.water_pct": 60, "dough.flour": "rye", "crust.wish": "pale"})
			stone, _ := set.Schema().FactID("oven.stone_kg")
			var d rules.Decision
			for kg := range 40 {
				assert.NoError(t, in.SetNumber(stone, float64(kg)))
				heat.Decide(in, &d)
				want := int32(3)
				if kg*10 > 94 {
					want = 2
				}
				assert.Equal(t, want, d.Winners[0])
				heat.Why(in, &d)
				heat.Possible(in, 1000)
			}
		})
	}
	wg.Wait()
}
