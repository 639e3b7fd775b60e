package jsonschema_test

import (
	"flag"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/jsonschema"
	"github.com/glossladder/glossladder/service/vocabulary"
)

var update = flag.Bool("update", false, "write rules/schema anew")

const folder = "../schema"

// contract is the schema of the shipped facts and results, which does not change.
var contract = sync.OnceValues(vocabulary.Schema)

func shippedSchema(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := contract()
	require.NoError(t, err)
	return s
}

// The files are written anew by go test ./rules/jsonschema -update.
func TestTheWrittenSchemasAreCurrent(t *testing.T) {
	documents := jsonschema.Documents(shippedSchema(t))
	var names []string
	for _, d := range documents {
		names = append(names, d.File())
		path := filepath.Join(folder, d.File())
		if *update {
			require.NoError(t, os.WriteFile(path, d.JSON, 0o600))
		}
		have, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(d.JSON), string(have), "%s is behind the contract: go test ./rules/jsonschema -update", path)
	}
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		assert.Contains(t, names, e.Name(), "a file that nobody writes")
	}
}

func TestTheSameSchemaGivesTheSameBytes(t *testing.T) {
	once, again := jsonschema.Documents(shippedSchema(t)), jsonschema.Documents(shippedSchema(t))
	assert.Equal(t, once, again)
}

// A multipleOf that binary fractions cannot say would have editors mark 0.3 as no multiple of 0.1.
func TestStepsStandInTheSchemaOnlyWhereEditorsReckonThemRight(t *testing.T) {
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "a.whole", Label: "whole", Kind: rules.Number, Max: 10, Step: 1},
		{Name: "a.half", Label: "half", Kind: rules.Number, Min: -1, Max: 10, Step: 0.5},
		{Name: "a.tenth", Label: "tenth", Kind: rules.Number, Max: 10, Step: 0.1},
		{Name: "a.shifted", Label: "shifted", Kind: rules.Number, Min: 1, Max: 9, Step: 2},
	}, []rules.ResultType{{Table: "t", Fields: []rules.Field{{Name: "f", Kind: rules.Flag}}}})
	require.NoError(t, err)
	given := at(t, document(t, s, "cases"), "$defs", "given", "properties")
	assert.InDelta(t, 1, at(t, given, "a.whole")["multipleOf"], 0)
	assert.InDelta(t, 0.5, at(t, given, "a.half")["multipleOf"], 0)
	assert.NotContains(t, at(t, given, "a.tenth"), "multipleOf")
	assert.NotContains(t, at(t, given, "a.shifted"), "multipleOf", "odd numbers are no multiples of 2")
	assert.Equal(t, "Tenth, steps of 0.1.", at(t, given, "a.tenth")["description"])
}
