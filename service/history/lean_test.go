package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func TestALeanDecisionIsTheWholeOneWithoutItsSheets(t *testing.T) {
	severity := 2.0
	for name, d := range map[string]*history.Decision{
		"advice with sheets": {
			RuleSet: "h", ConfidencePct: 95, Panels: []history.PanelDecided{{Panel: "bonnet", Ladder: "finish", SeverityLeft: &severity}},
			Sheets: []history.FactSheet{
				{Panel: "bonnet", Facts: map[string]any{"paint.softness": "soft"}, Answers: []history.TableAnswer{{Table: "start", Rule: "a", Answer: "finish"}}},
				{Panel: "bonnet", About: "finish", Facts: map[string]any{"paint.softness": "soft", "step.now": "finish"}},
			},
		},
		"a verdict without":         {RuleSet: "h", Trial: 5, Panels: []history.PanelDecided{{Panel: "bonnet", Verdict: "accept"}}},
		"a text that looks like it": {RuleSet: `,"sheets":[`, Panels: []history.PanelDecided{{Panel: "bonnet"}}, Sheets: []history.FactSheet{{Panel: "bonnet"}}},
	} {
		kind, v, data, err := history.Encode(d)
		require.NoError(t, err, name)
		whole := append([]byte(nil), data...)
		body, err := history.DecodeLean(kind, v, data)
		require.NoError(t, err, name)
		want := *d
		want.Sheets = nil
		assert.Equal(t, &want, body, name)
		assert.Equal(t, whole, data, "what was given is as it was")
	}
	_, err := history.DecodeLean(history.KindDecision, 1, []byte(`{"rule_set":1,"sheets":[]}`))
	require.Error(t, err)
	_, err = history.DecodeLean(history.KindDecision, 99, []byte(`{}`))
	require.ErrorContains(t, err, "use a later program")
}

func TestALeanReadingOfAnythingElseIsWhole(t *testing.T) {
	trial := &history.Trial{Panel: "bonnet", Step: "cut"}
	kind, v, data, err := history.Encode(trial)
	require.NoError(t, err)
	body, err := history.DecodeLean(kind, v, data)
	require.NoError(t, err)
	assert.Equal(t, trial, body)
}
