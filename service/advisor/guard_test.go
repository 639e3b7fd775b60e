package advisor_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

// The guards hold whatever a rule file says, and name the rule that has to be mended.
func TestNoRuleFileLiftsTheGuards(t *testing.T) {
	t.Run("a ladder stronger than the limit", func(t *testing.T) {
		a := shopWith(t, map[string]string{"ladder.yaml": `table: ladder
hit: first
rules:
  - {id: always-everything, when: true, then: {ladder: cut-polish-finish}, because: More is more.}
`})
		_, err := a.Recommend(inspection())
		var faulty *advisor.RulesError
		require.ErrorAs(t, err, &faulty)
		assert.Equal(t, "ladder.yaml:4: rule always-everything: answers cut-polish-finish where the ladder has to start with finish", err.Error())
	})
	t.Run("a table that does not answer", func(t *testing.T) {
		a := shopWith(t, map[string]string{"ladder.yaml": `table: ladder
hit: first
rules:
  - {id: only-none, when: step.first == "none", then: {ladder: none}, because: Nothing to do.}
`})
		_, err := a.Recommend(inspection())
		var faulty *advisor.RulesError
		require.ErrorAs(t, err, &faulty)
		assert.Contains(t, err.Error(), "table ladder: no rule answers for panel bonnet")
	})
	always := func(then string) map[string]string {
		return map[string]string{"verdict.yaml": "table: verdict\nhit: first\nrules:\n  - {id: always, when: true, then: " + then + ", because: Because I say so.}\n"}
	}
	t.Run("stepping up past the limit becomes a stop", func(t *testing.T) {
		v, err := shopWith(t, always("{verdict: step-up}")).JudgeTrial(inspection(panel(func(p *advisor.Panel) { p.Film = nil })), "bonnet", []advisor.Trial{trial("polish", 5, 0, 2)})
		require.NoError(t, err)
		assert.Equal(t, advisor.StopWork, v.Kind)
		assert.Equal(t, "limit", v.Reason.Table, "the limit is the reason")
	})
	t.Run("adjusting for ever becomes a stop", func(t *testing.T) {
		a := shopWith(t, always("{verdict: adjust, change: fresh-pad}"))
		var trials []advisor.Trial
		for {
			trials = append(trials, trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.FreshSection = true }))
			v, err := a.JudgeTrial(inspection(), "bonnet", trials)
			require.NoError(t, err)
			if v.Next == nil {
				assert.Equal(t, advisor.StopWork, v.Kind)
				assert.Equal(t, "policy", v.Reason.Table)
				break
			}
			require.Less(t, len(trials), 30)
		}
	})
	t.Run("refining a finish names the rule", func(t *testing.T) {
		_, err := shopWith(t, always("{verdict: refine}")).JudgeTrial(inspection(), "bonnet", []advisor.Trial{trial("finish", 5, 0, 1)})
		var faulty *advisor.RulesError
		require.ErrorAs(t, err, &faulty)
		assert.Contains(t, err.Error(), "verdict.yaml:4: rule always")
	})
}
