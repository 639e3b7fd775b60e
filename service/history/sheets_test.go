package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func TestSheetsAreStoredByWhatDiffers(t *testing.T) {
	d := &history.Decision{RuleSet: "set", Panels: []history.PanelDecided{{Panel: "roof"}}, Sheets: []history.FactSheet{
		{Panel: "roof", Facts: map[string]any{"panel.clean": true, "paint.softness": "soft", "film.usable_um": 8.5}, Answers: []history.TableAnswer{{Table: "limit"}}},
		{Panel: "roof", About: "polish", Facts: map[string]any{"panel.clean": true, "paint.softness": "soft", "film.usable_um": 8.5, "step.now": "polish"}},
		{Panel: "sill", Facts: map[string]any{"panel.clean": false, "paint.softness": "soft"}},
		{Panel: "sill", About: "again", Facts: map[string]any{"panel.clean": false, "paint.softness": "soft"}},
		{Panel: "door", Facts: map[string]any{}},
	}}
	kind, version, data, err := history.Encode(d)
	require.NoError(t, err)
	assert.JSONEq(t, `{"rule_set":"set","panels":[{"panel":"roof"}],"sheets":[
		{"panel":"roof","facts":{"panel.clean":true,"paint.softness":"soft","film.usable_um":8.5},"answers":[{"table":"limit"}]},
		{"panel":"roof","about":"polish","facts":{"step.now":"polish"}},
		{"panel":"sill","facts":{"panel.clean":false,"film.usable_um":null,"step.now":null}},
		{"panel":"sill","about":"again"},
		{"panel":"door","facts":{"panel.clean":null,"paint.softness":null}}]}`, string(data))
	back, err := history.Decode(kind, version, data)
	require.NoError(t, err)
	assert.Equal(t, d, back)
	restored, ok := back.(*history.Decision)
	require.True(t, ok)
	restored.Sheets[0].Facts["panel.clean"] = false
	assert.Equal(t, true, restored.Sheets[1].Facts["panel.clean"], "no sheet shares its facts with another")
}
