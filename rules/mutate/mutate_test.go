package mutate_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/mutate"
	"github.com/glossladder/glossladder/rules/promise"
)

// parcels is an invented schema, small enough to try every input.
func parcels(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 6, Step: 1, Class: rules.Measurable},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
		{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
	}}})
	require.NoError(t, err)
	return s
}

func load(t testing.TB, table, worked string) *rules.Set {
	t.Helper()
	files := fstest.MapFS{"shelf.yaml": {Data: []byte(table)}}
	if worked != "" {
		files["cases/shelf.yaml"] = &fstest.MapFile{Data: []byte(worked)}
	}
	set, err := rules.Load(files, parcels(t))
	require.NoError(t, err, table)
	return set
}

const shelf = `
table: shelf
hit: first
let:
  heavy: box.kg >= 4
rules:
  - id: heavy-low
    when: let.heavy
    then: {height: low}
    because: A heavy box must not fall.
  - id: fragile-top
    when: box.fragile && box.size <= "middling"
    then: {height: top}
    because: Nothing may stand on it.
  - id: rest
    when: true
    then: {height: mid}
    because: The rest fits anywhere.
`

const allCases = `
table: shelf
cases:
  - {name: heavy, given: {box.kg: 4}, expect: {rule: heavy-low, then: {height: low}}}
  - {name: heavy and fragile, given: {box.kg: 4, box.fragile: true, box.size: small}, expect: {rule: heavy-low}}
  - {name: not so heavy, given: {box.kg: 3}, expect: {rule: rest, then: {height: mid}}}
  - {name: fragile, given: {box.fragile: true, box.size: middling}, expect: {rule: fragile-top, then: {height: top}}}
  - {name: fragile and large, given: {box.fragile: true, box.size: large}, expect: {rule: rest}}
  - {name: middling, given: {box.fragile: false, box.size: middling}, expect: {rule: rest}}
`

func changes(fs []mutate.Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.Mutant.Change())
	}
	return out
}

func TestGoodCasesCatchEveryMistake(t *testing.T) {
	report, err := mutate.Run(load(t, shelf, allCases), nil, 0)
	require.NoError(t, err)
	assert.Empty(t, changes(report.Survivors()))
	assert.InDelta(t, 100, report.All().Score(), 0)
	made := map[mutate.Kind]int{}
	for _, k := range mutate.Kinds() {
		made[k] = report.Of("", k).Made()
	}
	assert.Equal(t, map[mutate.Kind]int{
		mutate.Bound: 4, mutate.Clause: 4, mutate.Order: 2, mutate.Result: 3, mutate.Rule: 3,
	}, made)
	var said []string
	for _, f := range report.Findings {
		if f.Outcome == mutate.Caught {
			said = append(said, f.Mutant.String()+" is caught by "+f.By)
		}
	}
	assert.Contains(t, said, "shelf.yaml:5:10: let.heavy: box.kg >= 4 becomes box.kg >= 3 is caught by case not so heavy")
	assert.Contains(t, said, "shelf.yaml:12:26: fragile-top without box.size <= \"middling\" is caught by case fragile and large")
	assert.Contains(t, said, "shelf.yaml:7:9: heavy-low is gone is caught by case heavy")
}

func TestAMissingCaseIsTheOneThatIsSuggested(t *testing.T) {
	without := strings.Replace(allCases, "  - {name: fragile and large, given: {box.fragile: true, box.size: large}, expect: {rule: rest}}\n", "", 1)
	require.NotEqual(t, allCases, without)
	report, err := mutate.Run(load(t, shelf, without), nil, 0)
	require.NoError(t, err)
	survivors := report.Survivors()
	require.Equal(t, []string{
		`fragile-top without box.size <= "middling"`,
		`fragile-top: box.size <= "middling" becomes box.size <= "large"`,
	}, changes(survivors))
	assert.Equal(t, `  - name: size large, fragile yes, weight not measured
    given: {box.size: large, box.fragile: true}
    expect: {rule: rest, then: {height: mid}}
`, survivors[1].Case.YAML())
	again, err := mutate.Run(load(t, shelf, without+"\n"+survivors[1].Case.YAML()), nil, 0)
	require.NoError(t, err)
	assert.Empty(t, changes(again.Survivors()))
}

func TestAPromiseNoticesToo(t *testing.T) {
	promises, err := promise.Parse("promises.yaml", []byte(`
promises:
  - {id: heavy-stays-low, never: box.kg >= 4 && shelf.height != "low", because: It must not fall.}
  - {id: not-kept, never: shelf.height == "mid", because: A promise that the set breaks notices nothing.}
`))
	require.NoError(t, err)
	report, err := mutate.Run(load(t, shelf, "table: shelf\ncases:\n  - {name: nothing known, given: {}, expect: {rule: rest}}\n"), promises, 0)
	require.NoError(t, err)
	by := map[string]int{}
	for _, f := range report.Findings {
		by[f.By]++
	}
	// Raising the bound, deleting the rule, giving it another result, and letting another rule go first.
	assert.Equal(t, 4, by["promise heavy-stays-low"])
	assert.Zero(t, by["promise not-kept"])
}

func TestCasesThatFailCannotTellAnything(t *testing.T) {
	_, err := mutate.Run(load(t, shelf, "table: shelf\ncases:\n  - {name: wrong, given: {}, expect: {rule: heavy-low}}\n"), nil, 0)
	assert.ErrorContains(t, err, "1 cases do not come out as expected")
}

func TestReportDoesNotDependOnProcessors(t *testing.T) {
	set := load(t, shelf, "table: shelf\ncases:\n  - {name: nothing known, given: {}, expect: {rule: rest}}\n")
	many, err := mutate.Run(set, nil, 0)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := mutate.Run(set, nil, 0)
	require.NoError(t, err)
	assert.Equal(t, one, many)
}

// all calls visit for every input.
func all(s *rules.Schema, visit func(in *rules.Input)) {
	for kg := int32(-1); kg <= 6; kg++ {
		for size := int32(-1); size < 3; size++ {
			for fragile := int32(-1); fragile < 2; fragile++ {
				visit(s.InputAt([]int32{kg, size, fragile}))
			}
		}
	}
}

func clause(r *rand.Rand) string {
	switch r.IntN(8) {
	case 0:
		return fmt.Sprintf("box.kg >= %d", r.IntN(7))
	case 1:
		return fmt.Sprintf("box.kg < %d", r.IntN(7))
	case 2:
		return "box.size >= \"middling\""
	case 3:
		return "box.size != \"middling\""
	case 4:
		return "not known(box.kg)"
	case 5:
		return "(not known(box.fragile) || box.fragile)"
	case 6:
		return "(known(box.size) ? box.kg : 2) > 3"
	}
	return "box.fragile == false"
}

func answer(t *rules.Table, in *rules.Input, d *rules.Decision) string {
	t.Decide(in, d)
	out := d.Outcome.String()
	for _, w := range d.Winners {
		r := t.Rules()[w]
		out += " " + r.ID + " " + r.Result.String()
	}
	return out
}

// What is said to change no answer changes none, whatever the input; all else changes
// some answer, and the case that is said to catch it does.
func TestProofsAreWhatTryingEveryInputGives(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	words := []string{"low", "mid", "top"}
	seen := map[mutate.Outcome]int{}
	for n := range 150 {
		var b strings.Builder
		fmt.Fprintf(&b, "table: shelf\nhit: %s\nlet: {l: '%s'}\nrules:\n", []string{"first", "priority", "collect", "unique", "any"}[n%5], clause(r))
		for i := range 2 + r.IntN(4) {
			when := clause(r)
			if r.IntN(2) == 0 {
				when += " && " + clause(r)
			}
			if r.IntN(4) == 0 {
				when += " || let.l"
			}
			fmt.Fprintf(&b, "  - {id: r-%d, when: '%s', then: {height: %s}, because: invented}\n", i, when, words[r.IntN(3)])
		}
		set := load(t, b.String(), "")
		before, _ := set.Table("shelf")
		report, err := mutate.Run(set, nil, 0)
		require.NoError(t, err)
		for _, f := range report.Findings {
			seen[f.Outcome]++
			if f.Outcome == mutate.Refused {
				continue
			}
			changed, err := set.WithTable("shelf", f.Mutant.Source())
			require.NoError(t, err)
			after, _ := changed.Table("shelf")
			differs := false
			var d rules.Decision
			all(set.Schema(), func(in *rules.Input) {
				differs = differs || answer(before, in, &d) != answer(after, in, &d)
			})
			require.Equal(t, !differs, f.Outcome == mutate.Same, "%s\n%s", b.String(), &f.Mutant)
			if f.Outcome == mutate.Survived && f.Case != nil {
				require.NotEqual(t, answer(before, f.Case.Given, &d), answer(after, f.Case.Given, &d), "%s\n%s", b.String(), &f.Mutant)
			}
			require.False(t, f.Undecided, "%s\n%s", b.String(), &f.Mutant)
		}
	}
	assert.Greater(t, seen[mutate.Same], 100)
	assert.Greater(t, seen[mutate.Survived], 1000)
	t.Log(seen)
}

// The table is spelt anew for every mutant; the spelling alone changes nothing.
func TestSpellingAnewChangesNoAnswer(t *testing.T) {
	set := load(t, shelf, allCases)
	report, err := mutate.Run(set, nil, 0)
	require.NoError(t, err)
	for _, f := range report.Findings {
		if f.Mutant.Kind != mutate.Rule || f.Mutant.Rule != "fragile-top" {
			continue
		}
		text := strings.Replace(string(f.Mutant.Source()), `when: "false"`, "when: box.fragile && box.size <= \"middling\"", 1)
		text = strings.Replace(text, "when: false", "when: box.fragile && box.size <= \"middling\"", 1)
		again, err := set.WithTable("shelf", []byte(text))
		require.NoError(t, err, text)
		assert.Empty(t, cases.Run(again).Failed())
		before, _ := set.Table("shelf")
		after, _ := again.Table("shelf")
		for i, r := range before.Rules() {
			assert.Equal(t, r.ID, after.Rules()[i].ID)
			assert.Equal(t, r.Because, after.Rules()[i].Because)
			assert.True(t, r.Result.Equal(after.Rules()[i].Result))
		}
		return
	}
	t.Fatal("no rule was deleted")
}
