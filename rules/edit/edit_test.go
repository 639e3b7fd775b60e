package edit_test

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/edit"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

func is(s string) *string { return &s }

const bread = `# head
table: heat   # which
hit: first
rules:
  # first
  - id: a
    when: dough == "rye"   # why rye
    then: {hours: 2, note: x}  # two
    because: 'It''s slow.'

  - id: b
    because: >-  # folded
      It takes
      long.
    then:
      # the answer
      hours: 3 # three
      note: y

    when: >-
      dough == "wheat" &&
      not cold
  - {id: c, when: true, then: {hours: 1}, because: Otherwise.} # last
`

func TestOneValueChangesAndAllElseStays(t *testing.T) {
	for _, c := range []struct {
		name, id  string
		change    edit.Change
		old, with string
	}{
		{"a plain condition", "a", edit.Change{When: is(`dough == "oat"`)}, `dough == "rye"   # why`, `dough == "oat"   # why`},
		{"a condition in several lines is laid out anew", "a", edit.Change{When: is("dough == \"oat\"\n  && cold")}, `dough == "rye"`, `dough == "oat" && cold`},
		{"a condition that needs quotes", "a", edit.Change{When: is(`!cold`)}, `dough == "rye"   #`, `"!cold"   #`},
		{"a condition with a colon", "a", edit.Change{When: is(`cold ? warm : hot`)}, `dough == "rye"   #`, `"cold ? warm : hot"   #`},
		{"a block becomes a line", "b", edit.Change{When: is("cold")}, ">-\n      dough == \"wheat\" &&\n      not cold\n", "cold\n"},
		{"single quotes stay", "a", edit.Change{Because: is("It's slower.")}, "'It''s slow.'", "'It''s slower.'"},
		{"single quotes that cannot hold it", "a", edit.Change{Because: is("One.\nTwo.")}, "'It''s slow.'", `"One.\nTwo."`},
		{"a block whose head has a comment keeps it", "b", edit.Change{Because: is("It takes a day.")}, "      It takes\n      long.\n", "      It takes a day.\n"},
		{"an answer in braces", "a", edit.Change{Then: is("{hours: 4}")}, "{hours: 2, note: x}  # two", "{hours: 4}  # two"},
		{"an answer in braces becomes one in lines", "a", edit.Change{Then: is("hours: 4\nnote: z")}, "then: {hours: 2, note: x}  # two", "then:\n      hours: 4\n      note: z  # two"},
		{"an answer in lines, below a comment", "b", edit.Change{Then: is("hours: 4")}, "hours: 3 # three\n      note: y", "hours: 4"},
		{"an answer in lines becomes one in braces", "b", edit.Change{Then: is("{hours: 4}")}, "hours: 3 # three\n      note: y", "{hours: 4}"},
		{"within braces", "c", edit.Change{When: is("cold"), Because: is("Since, well.")}, "when: true, then: {hours: 1}, because: Otherwise.", `when: cold, then: {hours: 1}, because: "Since, well."`},
		{"an answer within braces", "c", edit.Change{Then: is("{hours: 9, note: z}")}, "then: {hours: 1}", "then: {hours: 9, note: z}"},
		{"a long reason, and a comment behind it", "a", edit.Change{When: is(strings.Repeat("cold && ", 20) + "cold")}, `dough == "rye"   #`, strings.Repeat("cold && ", 20) + "cold   #"},
		{"the same again", "a", edit.Change{When: is(`dough == "rye"`), Then: is("{note: x, hours: 2}"), Because: is("It's slow.")}, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.change.Then != nil && *c.change.Then == "{note: x, hours: 2}" {
				c.old, c.with = "{hours: 2, note: x}", "{note: x, hours: 2}" // the order of keys is the author's
			}
			require.Contains(t, bread, c.old)
			got, err := edit.Rule("heat.yaml", []byte(bread), c.id, c.change)
			require.NoError(t, err)
			assert.Equal(t, strings.Replace(bread, c.old, c.with, 1), string(got))

			windows := strings.ReplaceAll(bread, "\n", "\r\n")
			got, err = edit.Rule("heat.yaml", []byte("\ufeff"+windows), c.id, c.change)
			require.NoError(t, err)
			want := "\ufeff" + strings.Replace(windows, strings.ReplaceAll(c.old, "\n", "\r\n"), strings.ReplaceAll(c.with, "\n", "\r\n"), 1)
			assert.Equal(t, want, string(got), "a byte order mark and other line ends stay too")
		})
	}
}

func TestALongTextIsLaidOutInLines(t *testing.T) {
	src := "table: heat\nhit: first\nrules:\n  - id: a\n    when: true\n    then: {hours: 2}\n    because: Short.\n"
	long := strings.TrimSpace(strings.Repeat("A dough that has stood in the cold takes  longer. ", 8))
	got, err := edit.Rule("heat.yaml", []byte(src), "a", edit.Change{Because: &long})
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(got), "\n"), "\n")
	assert.Equal(t, "    because: >-", lines[6])
	require.Greater(t, len(lines), 9)
	for _, line := range lines[7:] {
		assert.LessOrEqual(t, len(line), 140, "two blanks side by side hold words together")
		assert.True(t, strings.HasPrefix(line, "      A") || strings.HasPrefix(line, "      ") && line[6] != ' ', line)
	}
}

func TestWhatCannotBeDoneSaysWhy(t *testing.T) {
	for _, c := range []struct {
		name, src, id string
		change        edit.Change
		says          string
	}{
		{"no such rule", bread, "d", edit.Change{}, "heat.yaml has no rule d"},
		{"a slip in the id", strings.Replace(bread, "id: a", "id: slow-dough", 1), "slow-dogh", edit.Change{}, "did you mean slow-dough?"},
		{"an empty reason", bread, "a", edit.Change{Because: is("  ")}, "because: it cannot be empty"},
		{"an answer that is no map", bread, "a", edit.Change{Then: is("4")}, "then: it is a single value, not a map"},
		{"an answer that is no YAML", bread, "a", edit.Change{Then: is("{hours: 4")}, "then: "},
		{"an answer in lines within braces", bread, "c", edit.Change{Then: is("hours: 4")}, "write its answer in braces too"},
		{"a rule without the value", strings.Replace(bread, "    when: dough == \"rye\"   # why rye\n", "", 1), "a", edit.Change{When: is("cold")}, "when: rule a has none to change"},
		{"a file that cannot be read", "rules: [", "a", edit.Change{}, "heat.yaml:"},
		{"an answer that would end its braces", bread, "a", edit.Change{Then: is("{hours: 4}\nwhen: true")}, "then: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := edit.Rule("heat.yaml", []byte(c.src), c.id, c.change)
			require.ErrorContains(t, err, c.says)
		})
	}
}

func TestAnswersAreGivenAsWritten(t *testing.T) {
	answers, err := edit.Answers("heat.yaml", []byte(bread))
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"a": "{hours: 2, note: x}", "b": "hours: 3 # three\nnote: y", "c": "{hours: 1}"}, answers)
}

// Every value of every shipped rule can be changed, alone: what stands before and behind it stays to the byte.
func TestEveryValueOfTheShippedRulesCanBeChangedInPlace(t *testing.T) {
	changes := map[string]edit.Change{
		"when":    {When: is(`paint.softness == "soft" || "a: b" == "#"`)},
		"then":    {Then: is("{step: finish, again: [a, b]}")},
		"because": {Because: is("Because of: this, # and “that”.")},
	}
	files, err := fs.Glob(shipped.Files(), "*.yaml")
	require.NoError(t, err)
	rules := 0
	for _, file := range files {
		src, err := fs.ReadFile(shipped.Files(), file)
		require.NoError(t, err)
		answers, err := edit.Answers(file, src)
		require.NoError(t, err)
		for id := range answers {
			rules++
			for field, change := range changes {
				got, err := edit.Rule(file, src, id, change)
				require.NoError(t, err, "%s %s %s", file, id, field)
				require.NotEqual(t, src, got)
				lines := bytes.Split(src, []byte("\n"))
				after := bytes.Split(got, []byte("\n"))
				start := 0
				for bytes.Equal(lines[start], after[start]) {
					start++
				}
				end := 0
				for bytes.Equal(lines[len(lines)-1-end], after[len(after)-1-end]) {
					end++
				}
				assert.Contains(t, string(lines[start]), field+":", "%s %s: the first line that differs", file, id)
				key := strings.Index(string(lines[start]), field)
				for _, line := range lines[start+1 : len(lines)-end] {
					assert.Equal(t, strings.Repeat(" ", key+1), string(line[:key+1]), "%s %s: only further lines of the value differ too", file, id)
				}
			}
		}
	}
	assert.Greater(t, rules, 100)
}

func FuzzRule(f *testing.F) {
	f.Add(bread, "a", "x", "{a: b}", "why")
	f.Add(bread, "b", "x: y", "a: b\nc: d", "# why")
	f.Add(bread, "c", "}", "{a: [b, {c: d}]}", "a\nb")
	f.Add("rules: [{id: a, when: b, then: {c: d}, because: e}]", "a", ",", "{}", "'")
	f.Fuzz(func(t *testing.T, src, id, when, then, because string) {
		got, err := edit.Rule("f.yaml", []byte(src), id, edit.Change{When: &when, Then: &then, Because: &because})
		if err != nil {
			return
		}
		root, problems := strictyaml.Parse("f.yaml", got)
		require.Empty(t, problems, "%s", got)
		require.NotNil(t, root)
		again, err := edit.Rule("f.yaml", got, id, edit.Change{When: &when, Then: &then, Because: &because})
		require.NoError(t, err)
		require.Equal(t, string(got), string(again), "doing it twice changes nothing more")
	})
}
