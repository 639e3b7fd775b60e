package paper_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/clients/cli/paper"
)

func TestAPageIsPrinted(t *testing.T) {
	browser, err := paper.Browser("")
	if err != nil {
		require.Empty(t, os.Getenv("CI"), "PDF is not tested: %v", err)
		t.Skip("PDF IS NOT TESTED: " + err.Error())
	}
	pdf, err := paper.PDF(t.Context(), browser, []byte("<!DOCTYPE html><title>t</title><p>one page</p>"))
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(pdf, []byte("%PDF-")))
	assert.Equal(t, 1, bytes.Count(pdf, []byte("/Type /Page\n")), "pages")
}

func TestWithoutABrowserTheErrorNamesWhatToInstall(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	_, err := paper.Browser("")
	var none *paper.NoBrowserError
	require.ErrorAs(t, err, &none)
	assert.ErrorContains(t, err, "apt install chromium")
	_, err = paper.Browser("no-such-browser")
	assert.ErrorContains(t, err, "--browser no-such-browser")
}

func TestABrowserThatFailsIsQuoted(t *testing.T) {
	meanwhile := t.TempDir()
	t.Setenv("TMPDIR", meanwhile)
	broken := filepath.Join(t.TempDir(), "broken")
	require.NoError(t, os.WriteFile(broken, []byte("#!/bin/sh\necho no display >&2\nexit 3\n"), 0o700)) //nolint:gosec // it has to run
	_, err := paper.PDF(t.Context(), broken, []byte("<p>"))
	var failed *paper.PrintError
	require.ErrorAs(t, err, &failed)
	assert.ErrorContains(t, err, "it said: no display")

	lazy := filepath.Join(t.TempDir(), "lazy")
	require.NoError(t, os.WriteFile(lazy, []byte("#!/bin/sh\nexit 0\n"), 0o700)) //nolint:gosec // it has to run
	_, err = paper.PDF(t.Context(), lazy, []byte("<p>"))
	assert.ErrorContains(t, err, "it ended without a PDF")
	left, err := os.ReadDir(meanwhile)
	require.NoError(t, err)
	assert.Empty(t, left, "nothing is left behind")
}
