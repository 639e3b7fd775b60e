package cli

import (
	"bytes"
	"encoding/xml"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

func TestJUnitCountsAndKeepsWhatAPersonReads(t *testing.T) {
	one := func(table, name string, failures ...string) cases.Result {
		return cases.Result{Case: rules.Case{Table: table, Name: name, File: "cases/" + table + ".yaml", Line: 7}, Failures: failures, Got: "finish", Why: "it is <soft>"}
	}
	var out bytes.Buffer
	require.NoError(t, writeJUnit(&out, []cases.Result{
		one("start", "soft & dark"), one("start", "hard", "expected rule polish-it"), one("limit", "thin"),
	}))
	var got junitReport
	require.NoError(t, xml.Unmarshal(out.Bytes(), &got))
	assert.Equal(t, 3, got.Tests)
	assert.Equal(t, 1, got.Failures)
	require.Len(t, got.Suites, 2)
	assert.Equal(t, "soft & dark", got.Suites[0].Cases[0].Name)
	assert.Nil(t, got.Suites[0].Cases[0].Failure)
	failure := got.Suites[0].Cases[1].Failure
	require.NotNil(t, failure)
	assert.Equal(t, "expected rule polish-it", failure.Message)
	assert.Contains(t, failure.Text, "it is <soft>")
	assert.Equal(t, 7, got.Suites[1].Cases[0].Line)
}
