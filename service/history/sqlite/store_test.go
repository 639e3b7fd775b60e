package sqlite_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// open makes a store in a file of its own: a name with what URLs and patterns trip over.
func open(t testing.TB) *sqlite.Store {
	t.Helper()
	store, err := sqlite.Open(t.Context(), filepath.Join(t.TempDir(), "the shop's 100% #1?.db"))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	return store
}

func TestStoreKeepsTheContract(t *testing.T) {
	storetest.Run(t, func(t *testing.T) history.Store {
		store := open(t)
		t.Cleanup(func() { assert.NoError(t, store.Verify(context.WithoutCancel(t.Context()))) })
		return store
	})
}
