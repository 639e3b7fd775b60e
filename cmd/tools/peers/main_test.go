package main_test

import (
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
)

// A run from end to end over small tables; every answer of every engine written in Go is held against the oracle.
func TestSmallTablesAreMeasured(t *testing.T) {
	program := filepath.Join(t.TempDir(), "peers")
	built, err := exec.CommandContext(t.Context(), "go", "build", "-buildvcs=false", "-o", program, ".").CombinedOutput()
	require.NoError(t, err, string(built))
	out, err := exec.CommandContext(t.Context(), program, "-sizes", "10", "-points", "16", "-rounds", "1", "-slice", "1ms", "-node", "").Output()
	require.NoError(t, err)
	for _, m := range engine.Makers() {
		assert.Contains(t, string(out), "| "+m.Name+" | ")
	}
	assert.NotContains(t, string(out), "no figure")
	assert.Contains(t, string(out), "github.com/open-policy-agent/opa v")
}
