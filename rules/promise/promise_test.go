package promise_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
)

// parcels is an invented schema, small enough to try every input.
func parcels(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 6, Step: 1, Class: rules.Measurable},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
		{Name: "box.room", Label: "room", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Scale: "height"},
	}, []rules.ResultType{
		{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
			{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
		}},
		{Table: "lift", Priority: "hands", Fields: []rules.Field{
			{Name: "hands", Kind: rules.Word, Words: []string{"one", "two"}, Ordered: true, Required: true},
		}},
		{Table: "notes", Hits: []rules.Hit{rules.Collect}, Fields: []rules.Field{
			{Name: "topic", Kind: rules.Word, Words: []string{"weight", "glass"}, Required: true},
		}},
	})
	require.NoError(t, err)
	return s
}

type row struct{ when, then string }

func file(table, hit, field string, rows []row) *fstest.MapFile {
	var b strings.Builder
	fmt.Fprintf(&b, "table: %s\nhit: %s\nrules:\n", table, hit)
	for i, r := range rows {
		fmt.Fprintf(&b, "  - id: r-%d\n    when: %s\n    then: {%s: %s}\n    because: invented\n", i, r.when, field, r.then)
	}
	return &fstest.MapFile{Data: []byte(b.String())}
}

func load(t testing.TB, hit string, shelf, lift, notes []row) *rules.Set {
	t.Helper()
	set, err := rules.Load(fstest.MapFS{
		"shelf.yaml": file("shelf", hit, "height", shelf),
		"lift.yaml":  file("lift", "first", "hands", lift),
		"notes.yaml": file("notes", "collect", "topic", notes),
	}, parcels(t))
	require.NoError(t, err)
	return set
}

func parse(t testing.TB, says ...string) []promise.Promise {
	t.Helper()
	text := "promises:\n"
	for i, s := range says {
		text += fmt.Sprintf("  - {id: p-%d, safety: true, because: invented, %s}\n", i, s)
	}
	ps, err := promise.Parse("promises.yaml", []byte(text))
	require.NoError(t, err, text)
	return ps
}

func randomRows(r *rand.Rand, words ...string) []row {
	var rows []row
	for range 1 + r.IntN(5) {
		when := clause(r)
		if r.IntN(2) == 0 {
			when += " && " + clause(r)
		}
		rows = append(rows, row{when, words[r.IntN(len(words))]})
	}
	return rows
}

func clause(r *rand.Rand) string {
	switch r.IntN(6) {
	case 0:
		return fmt.Sprintf("box.kg >= %d", r.IntN(7))
	case 1:
		return fmt.Sprintf("box.kg < %d", 1+r.IntN(6))
	case 2:
		return `box.size >= "middling"`
	case 3:
		return "not known(box.kg)"
	case 4:
		return "(not known(box.fragile) || box.fragile)"
	}
	return "true"
}

// point is what the tables answer to one input; empty for no answer.
type point struct {
	kg, size, fragile int32
	height, hands     int // -1 for no answer
	noteWeight        bool
}

func every(t testing.TB, set *rules.Set) map[[3]int32]point {
	out := map[[3]int32]point{}
	answer := func(table, field string, in *rules.Input) int {
		tab, ok := set.Table(table)
		require.True(t, ok)
		var d rules.Decision
		tab.Decide(in, &d)
		if d.Outcome != rules.Answered {
			return -1
		}
		word, _ := tab.Rules()[d.Winners[0]].Result.Word(field)
		f, _ := tab.Rules()[0].Result.Type().Field(field)
		for i, w := range f.Words {
			if w == word {
				return i
			}
		}
		return -1
	}
	notes, _ := set.Table("notes")
	for kg := int32(-1); kg <= 6; kg++ {
		for size := int32(-1); size < 3; size++ {
			for fragile := int32(-1); fragile < 2; fragile++ {
				in := set.Schema().InputAt([]int32{kg, size, fragile, -1})
				p := point{kg: kg, size: size, fragile: fragile, height: answer("shelf", "height", in), hands: answer("lift", "hands", in)}
				var d rules.Decision
				notes.Decide(in, &d)
				for _, w := range d.Winners {
					word, _ := notes.Rules()[w].Result.Word("topic")
					p.noteWeight = p.noteWeight || word == "weight"
				}
				out[[3]int32{kg, size, fragile}] = p
			}
		}
	}
	return out
}

// Verdicts on random sets are those that trying every input gives.
func TestVerdictsAreWhatTryingEveryInputGives(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	promises := parse(t,
		`never: 'not known(box.kg) && shelf.height == "top"'`,
		`never: 'box.kg >= 3 && shelf.height >= "mid" && lift.hands == "one"'`,
		`always: 'shelf.height == "low" || known(lift.hands)'`,
		`reachable: 'shelf.height == "mid" && lift.hands == "two"'`,
		`total: shelf`,
		`monotone: {rises: box.kg, never-falls: shelf.height}`,
		`monotone: {rises: box.kg, never-rises: shelf.height}`,
		`monotone: {rises: box.kg, keeps: 'notes.topic == "weight"'}`,
		`never: 'not known(shelf.height) && box.kg > 2'`,
		`step: {rises: box.kg, moves: shelf.height, at-most: 1}`,
		`step: {rises: box.size, moves: shelf.height, at-most: 1}`,
		`step: {rises: box.fragile, moves: lift.hands, at-most: 0}`,
		`never: 'box.room < shelf.height'`,
	)
	outcomes := make([]map[promise.Outcome]int, len(promises))
	for n := range 600 {
		set := load(t, []string{"first", "priority", "unique", "any"}[n%4],
			randomRows(r, "low", "mid", "top"), randomRows(r, "one", "two"), randomRows(r, "weight", "glass"))
		points := every(t, set)
		breaks := make([]bool, len(promises))
		reached := false
		for _, p := range points {
			breaks[0] = breaks[0] || p.kg < 0 && p.height == 2
			breaks[1] = breaks[1] || p.kg >= 3 && p.height >= 1 && p.hands == 0
			breaks[2] = breaks[2] || p.height != 0 && p.hands < 0
			reached = reached || p.height == 1 && p.hands == 1
			breaks[4] = breaks[4] || p.height < 0
			breaks[8] = breaks[8] || p.height < 0 && p.kg > 2
			for kg := p.kg + 1; p.kg >= 0 && kg <= 6; kg++ {
				up := points[[3]int32{kg, p.size, p.fragile}]
				both := p.height >= 0 && up.height >= 0
				breaks[5] = breaks[5] || both && p.height > up.height
				breaks[6] = breaks[6] || both && p.height < up.height
				breaks[7] = breaks[7] || p.noteWeight && !up.noteWeight
			}
			if up, ok := points[[3]int32{p.kg + 1, p.size, p.fragile}]; ok && p.kg >= 0 {
				breaks[9] = breaks[9] || apart(p.height, up.height) > 1
			}
			if up, ok := points[[3]int32{p.kg, p.size + 1, p.fragile}]; ok && p.size >= 0 {
				breaks[10] = breaks[10] || apart(p.height, up.height) > 1
			}
			if p.fragile == 0 {
				breaks[11] = breaks[11] || apart(p.hands, points[[3]int32{p.kg, p.size, 1}].hands) > 0
			}
			breaks[12] = breaks[12] || p.height > 0 // room for the lowest shelf only breaks it
		}
		breaks[3] = !reached
		verdicts, err := promise.Verify(set, promises, 0)
		require.NoError(t, err)
		for i, v := range verdicts {
			want := promise.Kept
			if breaks[i] {
				want = promise.Broken
				require.NotEmpty(t, v.Example)
			}
			require.Equal(t, want, v.Outcome, "set %d, promise %d: %s", n, i, v.Example)
			if outcomes[i] == nil {
				outcomes[i] = map[promise.Outcome]int{}
			}
			outcomes[i][v.Outcome]++
		}
	}
	for i, o := range outcomes {
		assert.Greater(t, o[promise.Kept], 5, "promise %d", i)
		assert.Greater(t, o[promise.Broken], 5, "promise %d", i)
	}
}

// apart is how many places lie between two answers; none when one of them is missing.
func apart(a, b int) int {
	if a < 0 || b < 0 {
		return 0
	}
	return max(a-b, b-a)
}

func TestBrokenPromiseNamesTheInputAndTheRule(t *testing.T) {
	set := load(t, "first", []row{{"box.kg >= 4", "low"}, {"true", "top"}}, []row{{"true", "one"}}, []row{{"box.kg == 3", "weight"}})
	verdicts, err := promise.Verify(set, parse(t,
		`never: 'not known(box.kg) && shelf.height == "top"'`,
		`monotone: {rises: box.kg, never-falls: shelf.height}`,
		`monotone: {rises: box.kg, keeps: 'notes.topic == "weight"'}`), 0)
	require.NoError(t, err)
	problems := promise.Refusals(verdicts)
	require.Len(t, problems, 3)
	assert.Equal(t, "promises.yaml:2:5: safety promise p-0 is broken: weight not measured: shelf answers height: top by r-1 (shelf.yaml:8); invented", problems[0].Error())
	assert.Contains(t, problems[1].Message, "weight 0 kg: shelf answers height: top by r-1 (shelf.yaml:8), and at 4 kg: shelf answers height: low by r-0 (shelf.yaml:4)")
	assert.Contains(t, problems[2].Message, `weight 3 kg, and at 4 kg no rule of notes gives notes.topic == "weight" any more`)
}

func TestStepOfMoreThanPromisedShowsBothInputs(t *testing.T) {
	set := load(t, "first", []row{{"box.kg >= 4", "top"}, {`box.kg == 3 && box.size == "large"`, "mid"}, {"true", "low"}}, []row{{"true", "one"}}, []row{{"true", "glass"}})
	verdicts, err := promise.Verify(set, parse(t,
		"step: {rises: box.kg, moves: shelf.height, at-most: 1}",
		"step: {rises: box.kg, moves: shelf.height, at-most: 2}",
		"step: {rises: box.size, moves: shelf.height, at-most: 1}"), 0)
	require.NoError(t, err)
	require.Equal(t, promise.Broken, verdicts[0].Outcome)
	assert.Equal(t, "weight 3 kg, size not known: shelf answers height: low by r-2 (shelf.yaml:12), and at 4 kg: shelf answers height: top by r-0 (shelf.yaml:4)", verdicts[0].Example)
	assert.Equal(t, promise.Kept, verdicts[1].Outcome)
	assert.Equal(t, promise.Kept, verdicts[2].Outcome, "from one size to the next the shelf moves by one at most")
}

func TestPromiseThatRunsOutOfStepsIsNotKept(t *testing.T) {
	set := load(t, "first", []row{{"box.kg >= 4", "low"}, {"box.kg < 4", "mid"}, {"not known(box.kg)", "top"}}, []row{{"true", "one"}}, []row{{"true", "glass"}})
	verdicts, err := promise.Verify(set, parse(t, "total: shelf"), 1)
	require.NoError(t, err)
	require.Equal(t, promise.NotDecided, verdicts[0].Outcome)
	assert.Equal(t, "promises.yaml:2:5: safety promise p-0 is not proved after 2 steps; invented", promise.Refusals(verdicts)[0].Error())
}

func TestMistakesInPromisesHaveTheirPlace(t *testing.T) {
	set := load(t, "first", []row{{"true", "low"}}, []row{{"true", "one"}}, []row{{"true", "glass"}})
	for _, c := range []struct{ name, text, want string }{
		{"unknown key", "promises:\n  - {id: a, because: b, nevr: x}\n", "promises.yaml:2:25: a promise has no key nevr; did you mean never?"},
		{"says nothing", "promises:\n  - {id: a, because: b}\n", "promises.yaml:2:5: a promise says never, always, monotone, total, reachable, step or blind"},
		{"says two things", "promises:\n  - {id: a, because: b, never: 'box.kg > 1', total: shelf}\n", "promises.yaml:2:53: a promise says one thing, and this one says never already; make two promises of it"},
		{"no such result", "promises:\n  - {id: a, because: b, never: 'shelf.hight == \"top\"'}\n", "shelf.hight"},
		{"no single answer", "promises:\n  - {id: a, because: b, never: 'notes.topic == \"glass\"'}\n", "table notes collects, so it has no single answer"},
		{"no such table", "promises:\n  - {id: a, because: b, total: shelves}\n", "there is no table shelves"},
		{"no such fact", "promises:\n  - {id: a, because: b, monotone: {rises: box.lb, never-falls: shelf.height}}\n", "box.lb is not a fact"},
		{"keeps about facts", "promises:\n  - {id: a, because: b, monotone: {rises: box.kg, keeps: box.fragile}}\n", "keeps is about the results of one table"},
		{"a step without its end", "promises:\n  - {id: a, because: b, step: {rises: box.kg, moves: shelf.height}}\n", "promises.yaml:2:31: step needs rises, moves and at-most; write it like"},
		{"a step of half a place", "promises:\n  - {id: a, because: b, step: {rises: box.kg, moves: shelf.height, at-most: 0.5}}\n", "at-most is 0.5, it is a whole number of places from 0"},
		{"a step of what is no number", "promises:\n  - {id: a, because: b, step: {rises: box.kg, moves: shelf.height, at-most: one}}\n", "at-most: "},
		{"a step of what is collected", "promises:\n  - {id: a, because: b, step: {rises: box.kg, moves: notes.topic, at-most: 1}}\n", "notes.topic has no order; name an ordered word"},
		{"a step of no fact", "promises:\n  - {id: a, because: b, step: {rises: shelf.height, moves: shelf.height, at-most: 1}}\n", "shelf.height is not a fact"},
		{"words of two scales", "promises:\n  - {id: a, because: b, never: 'shelf.height < lift.hands'}\n", "shelf.height and lift.hands are not words of one scale"},
		{"twice", "promises:\n  - {id: a, because: b, total: shelf}\n  - {id: a, because: b, total: shelf}\n", "promises.yaml:3:5: there are two promises a"},
		{"no list", "promises: {a: b}\n", "promises are a list"},
	} {
		t.Run(c.name, func(t *testing.T) {
			promises, err := promise.Parse("promises.yaml", []byte(c.text))
			if err == nil {
				_, err = promise.Verify(set, promises, 0)
			}
			require.ErrorContains(t, err, c.want)
		})
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("promises:\n  - {id: a, because: b, safety: true, never: x}\n"))
	f.Add([]byte("promises:\n  - {id: a, because: b, monotone: {rises: x, keeps: y}}\n"))
	f.Add([]byte("promises:\n  - {id: a, because: b, step: {rises: x, moves: y.z, at-most: 1}}\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		promises, err := promise.Parse("promises.yaml", src)
		if err != nil {
			require.Nil(t, promises)
			return
		}
		for _, p := range promises {
			require.NotEmpty(t, p.Kind)
			require.Positive(t, p.Line)
		}
	})
}
