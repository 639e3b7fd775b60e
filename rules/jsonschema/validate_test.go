package jsonschema_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/jsonschema"
	"github.com/glossladder/glossladder/rules/promise"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/catalogue"
)

func document(t testing.TB, s *rules.Schema, name string) map[string]any {
	t.Helper()
	for _, d := range jsonschema.Documents(s) {
		if d.Name == name {
			var out map[string]any
			require.NoError(t, json.Unmarshal(d.JSON, &out))
			return out
		}
	}
	require.Fail(t, "no document "+name)
	return nil
}

func at(t testing.TB, part map[string]any, keys ...string) map[string]any {
	t.Helper()
	for _, k := range keys {
		next, ok := part[k].(map[string]any)
		require.True(t, ok, "%v has no %s", keys, k)
		part = next
	}
	return part
}

// validators are the documents read by a library that knows nothing of rules; it first holds each against the draft itself.
func validators(t testing.TB) map[string]*validator.Schema {
	t.Helper()
	out := map[string]*validator.Schema{}
	for _, d := range jsonschema.Documents(shippedSchema(t)) {
		parsed, err := validator.UnmarshalJSON(bytes.NewReader(d.JSON))
		require.NoError(t, err)
		c := validator.NewCompiler()
		require.NoError(t, c.AddResource(d.File(), parsed))
		s, err := c.Compile(d.File())
		require.NoError(t, err, d.Name)
		require.Equal(t, 2020, s.DraftVersion)
		out[d.Name] = s
	}
	return out
}

// kindOf is the document for a file of a rule folder; none for the catalogue, which holds no rules.
func kindOf(file string) string {
	switch {
	case path.Dir(file) == "cases":
		return "cases"
	case file == promise.File:
		return "promises"
	case file == "catalogue.yaml":
		return ""
	}
	return "table"
}

func read(t testing.TB, src []byte) any {
	t.Helper()
	var out any
	require.NoError(t, yaml.Unmarshal(src, &out), string(src))
	return out
}

func TestEveryShippedFileIsValid(t *testing.T) {
	schemas := validators(t)
	seen := map[string]int{}
	require.NoError(t, fs.WalkDir(shipped.Files(), ".", func(file string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || kindOf(file) == "" {
			return err
		}
		src, err := fs.ReadFile(shipped.Files(), file)
		require.NoError(t, err)
		assert.NoError(t, schemas[kindOf(file)].Validate(read(t, src)), file)
		seen[kindOf(file)]++
		return nil
	}))
	tables := len(shippedSchema(t).Results())
	assert.Equal(t, map[string]int{"table": tables, "cases": tables, "promises": 1}, seen)
}

// slips are edits of the shipped files that an editor should mark. The loader refuses them too: the schema asks for nothing
// that a rule folder may leave out.
var slips = []struct{ name, file, from, to string }{
	{"a table that there is not", "start.yaml", "table: start", "table: begin"},
	{"a hit policy that the table may not have", "start.yaml", "hit: priority", "hit: collect"},
	{"a hit policy that there is not", "limit.yaml", "hit: priority", "hit: strongest"},
	{"a key too many at the top", "start.yaml", "hit: priority", "hit: priority\nowner: me"},
	{"no hit policy", "start.yaml", "hit: priority\n", ""},
	{"a key that is misspelt in a rule", "start.yaml", "    because: It sits", "    becuase: It sits"},
	{"a rule without its reason", "limit.yaml", "    because: Polishing turns matte paint shiny in patches for good.\n", ""},
	{"a reason that says nothing", "limit.yaml", "because: Polishing turns matte paint shiny in patches for good.", `because: " "`},
	{"an id with capitals", "limit.yaml", "id: no-step-on-matte", "id: No-Step-On-Matte"},
	{"a word that the field does not have", "limit.yaml", "then: {step: none}", "then: {step: nothing}"},
	{"a field that the table does not have", "limit.yaml", "then: {step: none}", "then: {stop: none}"},
	{"a field of another table", "limit.yaml", "then: {step: none}", "then: {ladder: none}"},
	{"an answer that is no map", "limit.yaml", "then: {step: none}", "then: none"},
	{"a field that is missing", "removal.yaml", "{low_um: 0.1, likely_um: 0.3, high_um: 0.5}", "{low_um: 0.1, likely_um: 0.3}"},
	{"a number above its bounds", "removal.yaml", "high_um: 0.5}", "high_um: 500}"},
	{"a number below its bounds", "removal.yaml", "low_um: 0.1,", "low_um: -1,"},
	{"a number beside its steps", "policy.yaml", "most_trials: 8,", "most_trials: 8.5,"},
	{"a number in quotes", "policy.yaml", "most_trials: 8,", `most_trials: "8",`},
	{"a let with a capital", "start.yaml", "  marks: defect", "  Marks: defect"},
	{"a condition that is a list", "limit.yaml", "when: film.thin", "when: [film.thin]"},
	{"a table without rules", "removal.yaml", "rules:\n", "rules: []\nlet:\n"},
	{"a case without what is expected", "cases/start.yaml", "expect:", "expects:"},
	{"a fact that there is not", "cases/start.yaml", "defect.kind:", "defect.sort:"},
	{"a fact's word that there is not", "cases/start.yaml", "paint.softness: soft", "paint.softness: softish"},
	{"a fact outside its bounds", "cases/start.yaml", "defect.severity: 2", "defect.severity: 12"},
	{"a fact beside its steps", "cases/start.yaml", "defect.severity: 2,", "defect.severity: 2.2,"},
	{"a flag in words", "cases/limit.yaml", "panel.repaint_known: true", `panel.repaint_known: "yes"`},
	{"all rules expected of a table that gives one", "cases/start.yaml", "expect: {rule: stuck-on-top", "expect: {rules: [stuck-on-top]"},
	{"one rule expected of a table that collects", "cases/cautions.yaml", "expect: {rules: [", "expect: {rule: x, rules: ["},
	{"none and something", "cases/start.yaml", "expect: {rule:", "expect: {none: true, rule:"},
	{"nothing expected", "cases/limit.yaml", "expect: {rule: no-step-on-matte, then: {step: none}}", "expect: {}"},
	{"a promise that promises nothing", "promises.yaml", "    total: limit\n", ""},
	{"a promise of two things", "promises.yaml", "    total: limit\n", "    total: limit\n    never: film.thin\n"},
	{"a promise about no table", "promises.yaml", "total: limit", "total: limits"},
	{"a promise without its reason", "promises.yaml", "    because: Film that has not been measured is no permission to cut.\n", ""},
	{"a promise that is safe in words", "promises.yaml", "    safety: true", `    safety: "true"`},
	{"a promise that rises with a fact without order", "promises.yaml", "{rises: defect.severity, never-falls: start.step}", "{rises: defect.kind, never-falls: start.step}"},
	{"a promise of a result without order", "promises.yaml", "never-falls: start.step}", "never-falls: ladder.ladder}"},
	{"a promise of what is collected", "promises.yaml", "never-falls: start.step}", "never-falls: cautions.level}"},
	{"a monotone promise of two things", "promises.yaml", "never-falls: start.step}", "never-falls: start.step, never-rises: start.step}"},
	{"a step without its end", "promises.yaml", ", at-most: 1}", "}"},
	{"a step of half a place", "promises.yaml", "at-most: 1}", "at-most: 0.5}"},
}

func TestSlipsAreMarkedAndTheLoaderRefusesThemToo(t *testing.T) {
	schemas := validators(t)
	for _, slip := range slips {
		t.Run(slip.name, func(t *testing.T) {
			src, err := fs.ReadFile(shipped.Files(), slip.file)
			require.NoError(t, err)
			text := strings.Replace(string(src), slip.from, slip.to, 1)
			require.NotEqual(t, string(src), text, "%s does not hold %q", slip.file, slip.from)
			src = []byte(text)
			assert.Error(t, schemas[kindOf(slip.file)].Validate(read(t, src)))
			assert.Error(t, load(t, slip.file, src))
		})
	}
}

// load loads the shipped folder with one file changed, and holds it against its promises.
func load(t testing.TB, changed string, src []byte) error {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(shipped.Files(), ".", func(file string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(shipped.Files(), file)
		files[file] = &fstest.MapFile{Data: text}
		return err
	}))
	files[changed] = &fstest.MapFile{Data: src}
	if kindOf(changed) != "cases" {
		for file := range files {
			if kindOf(file) == "cases" {
				delete(files, file) // they would only add complaints
			}
		}
	}
	set, err := rules.Load(files, shippedSchema(t), rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	if err != nil {
		return err
	}
	promises, err := promise.Parse(promise.File, files[promise.File].Data)
	if err != nil {
		return err
	}
	_, err = promise.Verify(set, promises, 0)
	return err
}

// What the guide for rule authors shows is valid.
func TestOtherWaysToWriteAFileAreValid(t *testing.T) {
	schemas := validators(t)
	for _, c := range []struct{ name, kind, text string }{
		{"lets of every kind, a condition in a block, no quotes around true", "table", `
table: start
hit: first
let: {marks: defect.kind == "wash-marks", least: 2, always: true}
rules:
  - id: a-1
    when: >-
      let.marks
      && defect.severity > 1
    then: {step: polish}
    because: Shown.
  - {id: b, when: true, then: {step: none}, because: Shown.}
`},
		{"a field that may be left out", "table", "table: verdict\nhit: unique\nrules: [{id: a, when: trial.pad_loaded, then: {verdict: stop}, because: Shown.}]\n"},
		{"a case of one miss, a case of several, a case of nothing", "cases", `
table: start
cases:
  - {name: a, given: {defect.severity: 2.5, defect.catches_nail: false}, expect: {rule: x}, misses: y}
  - {name: b, given: {}, expect: {then: {step: none}}, misses: [y, z]}
  - {name: c, given: {}, expect: {none: true}}
`},
		{"cases of a table that collects", "cases", `
table: cautions
cases:
  - {name: a, given: {climate.panel_c: 41.3}, expect: {rules: [x, y], then: {topic: heat}}}
  - {name: b, given: {climate.panel_c: -3.1}, expect: {rules: [], then: [{topic: cold}, {level: care}]}}
`},
		{"every kind of promise", "promises", `
promises:
  - {id: a, because: b, never: film.thin}
  - {id: b, because: b, always: "limit.step >= 'none'", safety: false}
  - {id: c, because: b, reachable: film.thin}
  - {id: d, because: b, total: cautions}
  - {id: e, because: b, monotone: {rises: film.thin, never-rises: policy.most_trials}}
  - {id: f, because: b, monotone: {rises: climate.panel_c, keeps: 'cautions.topic == "heat"'}}
  - {id: g, because: b, step: {rises: paint.softness, moves: settings.passes, at-most: 3}}
`},
	} {
		assert.NoError(t, schemas[c.kind].Validate(read(t, []byte(c.text))), c.name)
	}
}
