package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/rules/check"
)

func TestFindingReadsAsASentence(t *testing.T) {
	for _, c := range []struct {
		name, hit string
		rows      []row
		want      string
	}{
		{
			"a gap reaches as far as it goes and names the facts that matter", "first",
			[]row{{"known(box.kg) && box.kg <= 4", "low"}, {"not known(box.kg)", "mid"}, {"box.size <= \"middling\"", "top"}},
			`shelf.yaml:12:9: no rule of shelf answers: weight 5 to 6 kg, size large or not known (such as weight 5 kg, size large); ` +
				`let r-2 (height: top) reach there with no bound on box.size in place of box.size <= "middling", ` +
				`or add a rule with when: box.kg >= 5 && (not known(box.size) || box.size == "large") [gap]`,
		},
		{
			"a bound that moves one step closes the gap", "first",
			[]row{{"box.kg <= 2", "low"}, {"box.kg >= 4", "mid"}, {"not known(box.kg)", "top"}},
			"shelf.yaml:4:9: no rule of shelf answers: weight 3 kg; let r-0 (height: low) reach there with box.kg <= 3 in place of box.kg <= 2, " +
				"or add a rule with when: box.kg == 3 [gap]",
		},
		{
			"a gap that no single bound closes", "unique",
			[]row{{"box.kg <= 2 && box.fragile", "low"}, {"box.kg >= 3", "mid"}, {"not known(box.kg)", "top"}, {"box.kg <= 2 && not box.fragile", "top"}},
			"shelf.yaml:4:9: no rule of shelf answers: weight 0 to 2 kg, fragile not known (such as weight 2 kg); " +
				"let r-0 (height: low) reach there with (not known(box.fragile) || box.fragile) in place of box.fragile, " +
				"or add a rule with when: box.kg <= 2 && not known(box.fragile) [gap]",
		},
		{
			"hidden by two rules together, and not by the third", "first",
			[]row{{"box.kg <= 3", "low"}, {"box.kg >= 4", "mid"}, {"box.kg == 2 && box.fragile", "mid"}, {"box.kg >= 2 && box.kg <= 5", "top"}, {"true", "low"}},
			"shelf.yaml:16:9: r-3 can never win: r-0 and r-1 take every input of it: weight 2 to 5 kg; " +
				"move it in front of r-0, narrow what hides it, or delete it [never-wins]",
		},
		{
			"hidden by a stronger answer", "priority",
			[]row{{"box.kg >= 2", "low"}, {"true", "mid"}},
			"shelf.yaml:4:9: r-0 can never win: r-1 takes every input of it: weight 2 to 6 kg; " +
				"give it a stronger answer than r-1 has, narrow what hides it, or delete it [never-wins]",
		},
		{
			"never true", "first",
			[]row{{"box.kg > 4 && box.kg < 2", "low"}, {"box.kg > 3", "mid"}, {"true", "top"}},
			"shelf.yaml:4:9: the condition of r-0 is never true; mend its bounds or delete the rule [never-true]",
		},
		{
			"never true though no bound says so", "first",
			[]row{{"box.kg + box.cm > 6 && box.kg + box.cm < 4", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: the condition of r-0 is never true; mend its bounds or delete the rule [never-true]",
		},
		{
			"two rules that hold together", "unique",
			[]row{{"box.kg <= 3", "low"}, {"box.kg >= 3", "mid"}, {"not known(box.kg)", "top"}},
			"shelf.yaml:8:9: r-1 (height: mid) and r-0 (height: low) hold together: weight 3 kg; add && box.kg >= 4 to r-1 [conflict]",
		},
		{
			"two rules of which one lies in the other", "any",
			[]row{{"true", "low"}, {"box.kg in 2..3", "mid"}},
			"shelf.yaml:8:9: r-1 (height: mid) and r-0 (height: low) hold together: weight 2 to 3 kg (such as weight 2 kg); " +
				"add && (not known(box.kg) || not (box.kg in 2..3)) to r-0, or give both the same answer [conflict]",
		},
		{
			"said twice", "priority",
			[]row{{"box.kg <= 3", "low"}, {"not (box.kg > 3)", "low"}, {"true", "mid"}, {"box.fragile", "top"}},
			"shelf.yaml:8:9: r-1 holds for the same inputs as r-0 and gives the same; delete one of them [duplicate]",
		},
		{
			"always true without saying so", "first",
			[]row{{"known(box.kg) || not known(box.kg)", "low"}},
			"shelf.yaml:4:9: the condition of r-0 is true for every input; write when: true if that is meant [always-true]",
		},
		{
			"two neighbours that one rule could say", "first",
			[]row{{"box.kg <= 2", "low"}, {"box.kg >= 5", "mid"}, {"box.kg in 3..4", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: r-0 and r-2 give the same for the same reason and could be one rule; " +
				"ask for box.kg <= 4 in place of box.kg <= 2 and box.kg in 3..4 [mergeable]",
		},
		{
			"a word that no rule gives", "first",
			[]row{{"box.fragile", "low"}, {"true", "top"}},
			"shelf.yaml: no rule of shelf gives height mid; add a rule that gives it, or accept that none does [unused-word]",
		},
		{
			"a word that only a hidden rule gives", "first",
			[]row{{"true", "low"}, {"box.fragile", "mid"}},
			"shelf.yaml: no rule of shelf gives height mid; add a rule that gives it, or accept that none does [unused-word]",
		},
		{
			"a number between two steps", "first",
			[]row{{"box.kg < 2.5 && box.cm <= 3", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: box.kg < 2.5: it is read in steps of 1 kg; write box.kg <= 2 [finer-than-step]",
		},
		{
			"a number that is never read", "first",
			[]row{{"1.5 == box.kg || box.cm <= 3", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: box.kg == 1.5: it is read in steps of 1 kg; write 1 or 2 [finer-than-step]",
		},
		{
			"a number out of reach", "first",
			[]row{{"box.kg >= 7 || box.fragile", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: box.kg >= 7: weight goes from 0 to 6 kg; take a number within these bounds [out-of-bounds]",
		},
		{
			"a number that everything stays below", "first",
			[]row{{"box.kg < 20 && box.fragile", "low"}, {"true", "top"}},
			"shelf.yaml:4:9: box.kg < 20: weight goes from 0 to 6 kg; take a number within these bounds, or known(box.kg) if that is meant [out-of-bounds]",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []string
			for _, f := range check.Table(table(t, c.hit, c.rows...), 0) {
				lines = append(lines, f.String())
			}
			assert.Contains(t, lines, c.want)
		})
	}
}
