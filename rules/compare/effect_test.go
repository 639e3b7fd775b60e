package compare_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
)

// told is what a table answers, told by its results without their texts. Under collect
// it is a set.
type told struct {
	outcome rules.Outcome
	heights []string
}

func tell(tab *rules.Table, in *rules.Input) told {
	var d rules.Decision
	tab.Decide(tab.Schema().InputAt(in.Codes()), &d)
	out := told{outcome: d.Outcome}
	for _, w := range d.Winners {
		height, _ := tab.Rules()[w].Result.Word("height")
		out.heights = append(out.heights, height)
	}
	slices.Sort(out.heights)
	out.heights = slices.Compact(out.heights)
	return out
}

func says(a compare.Answer) told {
	out := told{outcome: a.Outcome}
	for _, r := range a.Results {
		height, _ := r.Word("height")
		out.heights = append(out.heights, height)
	}
	slices.Sort(out.heights)
	return out
}

func with(a, b told) told {
	out := told{max(a.outcome, b.outcome), append(slices.Clone(a.heights), b.heights...)}
	slices.Sort(out.heights)
	out.heights = slices.Compact(out.heights)
	return out
}

func only(a, b told) told {
	out := told{}
	for _, h := range a.heights {
		if !slices.Contains(b.heights, h) {
			out.outcome, out.heights = rules.Answered, append(out.heights, h)
		}
	}
	return out
}

// The regions of random tables and random edits are those that trying every input gives.
func TestRegionsAreWhatTryingEveryInputGives(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	policies := []string{"first", "priority", "unique", "any", "collect"}
	changed, same := map[string]int{}, map[string]int{}
	for n := range 900 {
		hit := policies[n%5]
		other := hit
		if n%50 > 44 {
			other = policies[r.IntN(5)]
		}
		rows := randomRows(r)
		for i := range rows {
			rows[i].note = "" // texts have a test of their own
		}
		next := edited(r, rows)
		for i := range next {
			next[i].note = ""
		}
		a, b := table(t, hit, rows...), table(t, other, next...)
		effect, err := compare.Tables(a, b, 0)
		require.NoError(t, err)
		met := make([]int, len(effect.Regions))
		differ := 0
		all(a.Schema(), func(in *rules.Input) {
			was, is := tell(a, in), tell(b, in)
			var within []int
			for i := range effect.Regions {
				if effect.Regions[i].Contains(in) {
					within = append(within, i)
					met[i]++
				}
			}
			if slices.Equal(was.heights, is.heights) && was.outcome == is.outcome {
				require.Empty(t, within, "%s to %s, %v to %v: %v answers alike", hit, other, rows, next, in.Codes())
				return
			}
			differ++
			if hit == "collect" && other == "collect" {
				var lost, gained told
				for _, i := range within {
					for _, h := range says(effect.Regions[i].A).heights {
						require.NotContains(t, lost.heights, h, "told twice")
					}
					lost, gained = with(lost, says(effect.Regions[i].A)), with(gained, says(effect.Regions[i].B))
				}
				require.Equal(t, only(was, is), lost, "%v to %v: %v", rows, next, in.Codes())
				require.Equal(t, only(is, was), gained, "%v to %v: %v", rows, next, in.Codes())
				return
			}
			require.Len(t, within, 1, "%s to %s, %v to %v: %v, %v to %v", hit, other, rows, next, in.Codes(), was, is)
			region := effect.Regions[within[0]]
			require.Equal(t, []told{was, is}, []told{says(region.A), says(region.B)}, "%v", in.Codes())
		})
		for i := range effect.Regions {
			require.Positive(t, met[i], "%v to %v: %v has no input", rows, next, effect.Regions[i].Words())
			require.True(t, effect.Regions[i].Certain)
			require.True(t, i == 0 || effect.Regions[i-1].Share >= effect.Regions[i].Share, "largest first")
			if i < 2 {
				example(t, a, b, &effect.Regions[i])
			}
		}
		if differ == 0 {
			require.Equal(t, compare.Same, effect.Outcome)
			same[hit]++
		} else {
			require.Equal(t, compare.Changed, effect.Outcome)
			changed[hit]++
		}
	}
	for _, hit := range policies {
		assert.Greater(t, changed[hit], 50, hit)
		assert.Greater(t, same[hit], 20, hit)
	}
}

// example asks both tables about the example of a region.
func example(t *testing.T, a, b *rules.Table, region *compare.Region) {
	t.Helper()
	got, ok := region.Example()
	require.True(t, ok)
	require.True(t, region.Contains(got.Input), "%s is none of %v", got.Words, region.Words())
	require.NotEmpty(t, got.Words)
	was, is := tell(a, got.Input), tell(b, got.Input)
	require.NotEqual(t, was, is)
	require.Equal(t, region.A.Outcome == rules.NoRule, len(got.A) == 0)
	require.Equal(t, region.B.Outcome == rules.NoRule, len(got.B) == 0)
	for _, rule := range got.B {
		height, _ := rule.Result.Word("height")
		require.True(t, region.B.Outcome == rules.Conflict || slices.Contains(is.heights, height))
	}
}

func TestEditOfTextsChangesNoAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	for n := range 200 {
		hit := []string{"first", "priority", "collect", "unique"}[n%4]
		rows := randomRows(r)
		next := slices.Clone(rows)
		i := r.IntN(len(rows))
		next[i].note, next[i].because = "a new text", "said otherwise"
		report, err := compare.Sets(set(t, hit, rows...), set(t, hit, next...), 0)
		require.NoError(t, err)
		require.True(t, report.WordingOnly(), "%s, %v to %v: %v", hit, rows, next, report.Tables[0].Effect.Regions)
		require.Len(t, report.Tables[0].Rules, 1)
		require.Equal(t, []string{"wording"}, report.Tables[0].Rules[0].What())
		require.Empty(t, report.Acceptance())
	}
}

func TestSearchWithoutStepsIsNotDecided(t *testing.T) {
	front := []row{
		{id: "one", when: "box.kg > 2 && box.fragile", height: "mid"},
		{id: "two", when: "box.kg < 2 && box.size == \"small\"", height: "mid"},
	}
	a := table(t, "first", append(front, row{id: "three", when: "true", height: "low"})...)
	b := table(t, "first", append(front, row{id: "three", when: "true", height: "top"})...)
	effect, err := compare.Tables(a, b, 1)
	require.NoError(t, err)
	require.Equal(t, compare.NotDecided, effect.Outcome)
	effect, err = compare.Tables(a, b, 0)
	require.NoError(t, err)
	require.Equal(t, compare.Changed, effect.Outcome)
	require.Len(t, effect.Regions, 1)
	require.Empty(t, effect.Regions[0].Words())
	require.Equal(t, []string{"one", "two"}, effect.Regions[0].Front())
}

func TestClauseThatIsWrittenOtherwiseAndMeansTheSame(t *testing.T) {
	a := table(t, "first", row{id: "one", when: "box.kg < box.most_kg", height: "low"}, row{id: "two", when: "true", height: "mid"})
	b := table(t, "first", row{id: "one", when: "box.kg - box.most_kg < 0", height: "low"}, row{id: "two", when: "true", height: "mid"})
	effect, err := compare.Tables(a, b, 0)
	require.NoError(t, err)
	require.Equal(t, compare.Same, effect.Outcome, "few enough inputs to try them all")

	// Products of halves are eighths, so this is never so; there are too many inputs to try.
	was, is := generated(t, "first", []string{"false", "true"}), generated(t, "first", []string{"g.f0 * g.f2 * g.f4 == 100000.1", "true"})
	effect, err = compare.Tables(was, is, 0)
	require.NoError(t, err)
	require.Equal(t, compare.Possible, effect.Outcome, "never a silent pass")
	for i := range effect.Regions {
		require.False(t, effect.Regions[i].Certain)
		_, ok := effect.Regions[i].Example()
		require.False(t, ok)
	}
}

// A clause in one rule takes nothing from what is said about an edit of another.
func TestClauseOfAnotherRuleWeakensNothing(t *testing.T) {
	rows := []row{
		{id: "one", when: "box.kg < box.most_kg", height: "low"},
		{id: "two", when: "box.size == \"large\"", height: "mid"},
		{id: "three", when: "true", height: "top"},
	}
	next := slices.Clone(rows)
	next[1].when = "box.size >= \"middling\""
	effect, err := compare.Tables(table(t, "first", rows...), table(t, "first", next...), 0)
	require.NoError(t, err)
	require.Equal(t, compare.Changed, effect.Outcome)
	require.Len(t, effect.Regions, 1)
	region := &effect.Regions[0]
	require.Equal(t, []string{"size middling", "box.kg >= box.most_kg, or not known"}, region.Words())
	require.Equal(t, compare.Milder, region.Direction)
	example, ok := region.Example()
	require.True(t, ok)
	require.Equal(t, "size middling", example.Words)
}

func TestTablesOfOtherFactsAreRefused(t *testing.T) {
	a := table(t, "first", row{id: "one", when: "true", height: "low"})
	facts := slices.Clone(a.Schema().Facts())
	facts[0].Max = 9
	other, err := rules.NewSchema(facts, a.Schema().Results())
	require.NoError(t, err)
	_, err = compare.Tables(a, loaded(t, other), 0)
	require.ErrorIs(t, err, compare.ErrSchema)
}
