package page_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/clients/cli/page"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
)

// An invented set: where parcels go, and what is told about them.
const shelf = `table: shelf
hit: first
rules:
  - id: fragile-low
    when: box.fragile
    then: {height: low}
    because: It falls less far.
  - id: heavy-low
    when: box.kg >= 20
    then: {height: low}
    because: Nobody lifts it high.
  - id: large-mid
    when: box.size >= "middling"
    then: {height: mid}
    because: It fits there.
  - id: the-rest
    when: true
    then: {height: top, tape_cm: 20}
    because: There is room.
`

const labels = `table: labels
hit: collect
rules:
  - id: fragile
    when: box.fragile
    then: {text: Handle with care, level: care}
    because: It breaks.
  - id: two-people
    when: box.kg > 25
    then: {text: Lift with two people, level: danger}
    because: A back is no crane.
  - id: over-its-limit
    when: box.kg > box.most_kg
    then: {text: Too heavy for its box, level: care}
    because: The bottom may give way.
`

func parcelSet(t *testing.T, edits ...string) *rules.Set {
	t.Helper()
	words := []string{"low", "mid", "top"}
	schema, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 50, Step: 0.5, Class: rules.Measurable},
		{Name: "box.most_kg", Label: "allowed weight", Kind: rules.Number, Unit: "kg", Max: 40, Step: 0.5},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{
		{Table: "shelf", Fields: []rules.Field{
			{Name: "height", Kind: rules.Word, Words: words, Ordered: true, Required: true},
			{Name: "tape_cm", Kind: rules.Number, Max: 100, Step: 1, Unit: "cm"},
		}},
		{Table: "labels", Fields: []rules.Field{
			{Name: "text", Kind: rules.Text, Required: true},
			{Name: "level", Kind: rules.Word, Words: []string{"note", "care", "danger"}, Ordered: true, Required: true},
		}},
	})
	require.NoError(t, err)
	replaced := strings.NewReplacer(edits...)
	set, err := rules.Load(fstest.MapFS{
		"shelf.yaml":  {Data: []byte(replaced.Replace(shelf))},
		"labels.yaml": {Data: []byte(replaced.Replace(labels))},
	}, schema)
	require.NoError(t, err)
	return set
}

func differencePage(t *testing.T, edits ...string) string {
	t.Helper()
	return differenceOf(t, parcelSet(t), parcelSet(t, edits...), 0, page.Style{})
}

func differenceOf(t *testing.T, a, b *rules.Set, steps int, style page.Style) string {
	t.Helper()
	report, err := compare.Sets(a, b, steps)
	require.NoError(t, err)
	d := page.Difference{Report: report, A: "shipped", B: "ours", Notes: []string{"Copied on a quiet day."}, Most: 2}
	var out strings.Builder
	require.NoError(t, d.Difference(&out, style))
	return out.String()
}

func TestDifferenceReadsAsItShould(t *testing.T) {
	got := differencePage(t,
		"box.kg >= 20", "box.kg >= 22.5",
		"{height: mid}", "{height: top}",
		"box.kg > 25", "box.kg > 30",
		"box.kg > box.most_kg", "box.kg >= box.most_kg",
		"tape_cm: 20", "tape_cm: 25",
		"It breaks.", "It breaks easily.",
	)
	golden := filepath.Join("testdata", "difference.txt")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func TestDifferenceOfWordingSaysSo(t *testing.T) {
	got := differencePage(t, "It breaks.", "It breaks easily.")
	assert.Contains(t, got, "labels: only wording changed; no answer differs, for any input")
	assert.NotContains(t, got, "shelf")
	assert.Contains(t, differencePage(t), "The two are the same, file for file.")
}

func TestDifferenceThatIsNotDecidedSaysSo(t *testing.T) {
	narrow := []string{"when: box.fragile", `when: box.fragile && box.size == "small"`, "box.kg >= 20", `box.kg >= 20 && box.size == "large"`}
	before := parcelSet(t, append(narrow, `box.size >= "middling"`, "true")...)
	after := parcelSet(t, append(narrow, `box.size >= "middling"`, "true", "height: mid", "height: top")...)
	got := differenceOf(t, before, after, 1, page.Style{})
	assert.Contains(t, got, "shelf: not decided after 2 steps; 1 region is known where answers differ")
	assert.Contains(t, got, "Possibly: no input is known")
	full := differenceOf(t, before, after, 0, page.Style{Full: true})
	assert.NotContains(t, full, "Possibly")
	assert.Contains(t, full, "and none of these rules comes first: fragile-low and heavy-low")
}
