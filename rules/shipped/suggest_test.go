package shipped_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/service/catalogue"
)

// Without any case, suggestions alone give every rule a case that picks it and one that just misses it.
func TestSuggestedCasesCoverEveryRule(t *testing.T) {
	set := load(t)
	files := fstest.MapFS{}
	for _, name := range set.Files() {
		if src, _ := set.Source(name); !strings.HasPrefix(name, "cases/") {
			files[name] = &fstest.MapFile{Data: src}
		}
	}
	for _, table := range set.Tables() {
		var list []cases.Suggestion
		for i, rule := range table.Rules() {
			wins, misses := cases.Suggest(table, i)
			if assert.NotNil(t, wins, rule.ID) && assert.NotNil(t, misses, rule.ID) {
				list = append(list, *wins, *misses)
			}
		}
		files["cases/"+table.Name()+".yaml"] = &fstest.MapFile{Data: []byte(cases.File(table.Name(), list))}
	}
	alone, err := rules.Load(files, set.Schema(), rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	report := cases.Run(alone)
	assert.Empty(t, report.Failed())
	assert.Empty(t, report.Unwon())
	assert.Empty(t, report.Unmissed())
}

// Most bounds are tested on both sides. The rest lie where a case would only say once more what another one says.
func TestMostBoundsAreTestedOnBothSides(t *testing.T) {
	set := load(t)
	total := cases.Total(cases.Cover(set, cases.Run(set)))
	assert.GreaterOrEqual(t, total.Tested*100, total.Bounds*60, "%d of %d bounds", total.Tested, total.Bounds)
}
