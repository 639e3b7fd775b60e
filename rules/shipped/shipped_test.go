package shipped_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// loaded is the shipped set, which does not change: one load serves every test.
var loaded = sync.OnceValues(func() (*rules.Set, error) {
	schema, err := vocabulary.Schema()
	if err != nil {
		return nil, err
	}
	return rules.Load(shipped.Files(), schema, rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
})

func load(t testing.TB) *rules.Set {
	t.Helper()
	set, err := loaded()
	require.NoError(t, err)
	return set
}

func TestWorkedCasesComeOutAsWritten(t *testing.T) {
	report := cases.Run(load(t))
	require.NotEmpty(t, report.Results)
	for _, failed := range report.Failed() {
		t.Error(failed)
	}
}

func TestEveryRuleHasACaseThatPicksItAndOneThatJustMissesIt(t *testing.T) {
	report := cases.Run(load(t))
	require.NotEmpty(t, report.Rules)
	for _, rule := range report.Unwon() {
		t.Errorf("%s:%d: no case picks %s", rule.File, rule.Line, rule.Rule)
	}
	for _, rule := range report.Unmissed() {
		t.Errorf("%s:%d: no case just misses %s", rule.File, rule.Line, rule.Rule)
	}
}

func TestSettingsNameOnlyWhatTheCatalogueHas(t *testing.T) {
	set := load(t)
	doc, ok := set.Document("catalogue.yaml")
	require.True(t, ok)
	bench := doc.(*catalogue.Catalogue)
	table, ok := set.Table("settings")
	require.True(t, ok)
	for _, rule := range table.Rules() {
		machine, _ := rule.Result.Word("machine")
		pad, _ := rule.Result.Word("pad")
		liquid, _ := rule.Result.Word("liquid")
		assert.NotEmpty(t, bench.Machines(catalogue.MachineClass(machine)), "%s wants a %s", rule.ID, machine)
		assert.NotEmpty(t, bench.Pads(catalogue.PadClass(pad)), "%s wants a %s", rule.ID, pad)
		assert.NotEmpty(t, bench.Liquids(catalogue.LiquidClass(liquid)), "%s wants a %s", rule.ID, liquid)
	}
}

func TestEveryClassOfMachinePadAndLiquidHasAnExample(t *testing.T) {
	doc, ok := load(t).Document("catalogue.yaml")
	require.True(t, ok)
	bench := doc.(*catalogue.Catalogue)
	for _, c := range catalogue.MachineClasses() {
		assert.NotEmpty(t, bench.Machines(c), c)
	}
	for _, c := range catalogue.PadClasses() {
		assert.NotEmpty(t, bench.Pads(c), c)
	}
	for _, c := range catalogue.LiquidClasses() {
		assert.NotEmpty(t, bench.Liquids(c), c)
	}
	for _, k := range catalogue.ConsumableKinds() {
		assert.NotEmpty(t, bench.Consumables(k), k)
	}
}

func TestPolicyTakesNoMoreThanThePublishedLimit(t *testing.T) {
	// At most 0.5 mil may go in all: GM service bulletin 91-282-10, 1991. What must stay, 1.4 mil by bulletin 86-10-24 of
	// 1986, is the shop's choice here and lower by default, as the head of policy.yaml says.
	const mostMayGoUm = 0.5 * 25.4
	set := load(t)
	table, ok := set.Table("policy")
	require.True(t, ok)
	for _, rule := range table.Rules() {
		most, _ := rule.Result.Number("take_most_um")
		floor, _ := rule.Result.Number("clear_floor_um")
		assert.LessOrEqual(t, most, mostMayGoUm, rule.ID)
		assert.GreaterOrEqual(t, floor, 30.0, "%s: about 30 µm stays, common practice, no source", rule.ID)
	}
}

func TestOldClearIsTreatedMoreCarefully(t *testing.T) {
	table, ok := load(t).Table("policy")
	require.True(t, ok)
	for _, goal := range []string{"freshen", "correct", "show", "enhance"} {
		old, ok := table.Rule("old-clear-" + goal)
		require.True(t, ok, goal)
		young, ok := table.Rule("clear-" + goal)
		require.True(t, ok, goal)
		number := func(r rules.Rule, field string) float64 { v, _ := r.Result.Number(field); return v }
		assert.Greater(t, number(old, "clear_floor_um"), number(young, "clear_floor_um"), goal)
		assert.Less(t, number(old, "take_share_pct"), number(young, "take_share_pct"), goal)
		assert.Less(t, number(old, "take_most_um"), number(young, "take_most_um"), goal)
		assert.Equal(t, number(young, "severity_left"), number(old, "severity_left"), goal)
	}
}

func TestRemovalStaysInTheUsualRanges(t *testing.T) {
	// Finish 0 to 0.5 µm, polish 0.5 to 1.5 µm, cut 1.5 to 4 µm: from memory, no source.
	usual := map[string][2]float64{"finish": {0, 0.5}, "polish": {0.5, 1.5}, "cut": {1.5, 4}}
	d := newDesk(t, "removal")
	for step, span := range usual {
		for _, softness := range d.words("paint.softness") {
			d.clear()
			d.put("step.now", step)
			d.put("paint.softness", softness)
			result := d.answer()
			low, _ := result.Number("low_um")
			likely, _ := result.Number("likely_um")
			high, _ := result.Number("high_um")
			assert.True(t, span[0] <= low && low <= likely && likely <= high && high <= span[1], "%s on %s paint: %s", step, softness, result)
			assert.Equal(t, span[1], high, "budgets are kept with the high end")
		}
	}
}
