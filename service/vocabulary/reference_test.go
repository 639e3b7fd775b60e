package vocabulary_test

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/vocabulary"
)

var update = flag.Bool("update", false, "write rules/FACTS.md anew")

const page = "../../rules/FACTS.md"

// The page is written anew by go test ./service/vocabulary -update.
func TestTheReferenceOfFactsIsCurrent(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	want := vocabulary.Reference(schema)
	if *update {
		require.NoError(t, os.WriteFile(page, []byte(want), 0o600))
	}
	have, err := os.ReadFile(page)
	require.NoError(t, err)
	assert.Equal(t, want, string(have), "rules/FACTS.md is behind the contract: go test ./service/vocabulary -update")
}
