package compare_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// parcels is an invented schema, small enough to try every input.
func parcels(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 5, Step: 1, Class: rules.Measurable},
		{Name: "box.most_kg", Label: "allowed weight", Kind: rules.Number, Unit: "kg", Max: 4, Step: 1},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
		{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
		{Name: "note", Kind: rules.Text},
	}}})
	require.NoError(t, err)
	return s
}

// row is one rule of a test's table.
type row struct{ id, when, height, note, because string }

func set(t testing.TB, hit string, rows ...row) *rules.Set {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "table: shelf\nhit: %s\nrules:\n", hit)
	for _, r := range rows {
		then := r.height
		if r.note != "" {
			then += ", note: " + r.note
		}
		because := r.because
		if because == "" {
			because = "invented"
		}
		fmt.Fprintf(&b, "  - id: %s\n    when: %s\n    then: {height: %s}\n    because: %s\n", r.id, r.when, then, because)
	}
	s, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(b.String())}}, parcels(t))
	require.NoError(t, err, b.String())
	return s
}

func table(t testing.TB, hit string, rows ...row) *rules.Table {
	t.Helper()
	return set(t, hit, rows...).Tables()[0]
}

// all calls yield for every input.
func all(s *rules.Schema, yield func(in *rules.Input)) {
	for kg := int32(-1); kg <= 5; kg++ {
		for most := int32(-1); most <= 4; most++ {
			for size := int32(-1); size < 3; size++ {
				for fragile := int32(-1); fragile < 2; fragile++ {
					yield(s.InputAt([]int32{kg, most, size, fragile}))
				}
			}
		}
	}
}

func clause(r *rand.Rand) string {
	switch r.IntN(10) {
	case 0:
		return fmt.Sprintf("box.kg >= %d", r.IntN(6))
	case 1:
		return fmt.Sprintf("box.kg < %d", 1+r.IntN(5))
	case 2:
		return `box.size >= "middling"`
	case 3:
		return `box.size != "middling"`
	case 4:
		return "not known(box.kg)"
	case 5:
		return "(not known(box.fragile) || box.fragile)"
	case 6:
		return "box.kg < box.most_kg"
	case 7:
		return "box.kg + box.most_kg > 5"
	case 8:
		return "not (box.kg == box.most_kg)"
	}
	return "box.fragile == false"
}

func condition(r *rand.Rand) string {
	when := clause(r)
	if r.IntN(2) == 0 {
		when += " && " + clause(r)
	}
	if r.IntN(4) == 0 {
		when += " || " + clause(r)
	}
	return when
}

var (
	heights = []string{"low", "mid", "top"}
	notes   = []string{"", "mind the edges", "two people"}
)

func randomRows(r *rand.Rand) []row {
	rows := make([]row, 1+r.IntN(7))
	for i := range rows {
		rows[i] = row{fmt.Sprintf("r-%d", i), condition(r), heights[r.IntN(3)], notes[r.IntN(3)], ""}
	}
	return rows
}

// edited makes one to three edits.
func edited(r *rand.Rand, rows []row) []row {
	out := append([]row(nil), rows...)
	for range 1 + r.IntN(3) {
		i := r.IntN(len(out))
		switch r.IntN(8) {
		case 0:
			out[i].when = condition(r)
		case 1:
			out[i].height = heights[r.IntN(3)]
		case 2:
			out[i].note = notes[r.IntN(3)]
		case 3:
			out[i].because = "said otherwise"
		case 4:
			out[i].id = fmt.Sprintf("n-%d", r.Uint32())
		case 5:
			if len(out) > 1 {
				out = append(out[:i], out[i+1:]...)
			}
		case 6:
			k := r.IntN(len(out))
			out[i], out[k] = out[k], out[i]
		case 7:
			out = append(out, row{fmt.Sprintf("n-%d", r.Uint32()), condition(r), heights[r.IntN(3)], notes[r.IntN(3)], ""})
		}
	}
	return out
}

func loaded(t testing.TB, s *rules.Schema) *rules.Table {
	t.Helper()
	src := "table: shelf\nhit: first\nrules:\n  - {id: one, when: true, then: {height: low}, because: invented}\n"
	out, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(src)}}, s)
	require.NoError(t, err)
	return out.Tables()[0]
}
