package sqlite_test

import (
	"database/sql"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// Two stores have a connection that writes each, as two programs do.
func TestTwoProgramsBookOneBay(t *testing.T) {
	for name, contract := range map[string]func(*testing.T, ...history.Store){"one gets the time": storetest.OneGetsTheTime, "work lies apart": storetest.LaidApart} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "shop.db")
			var stores []history.Store
			for range 2 {
				store, err := sqlite.Open(t.Context(), path)
				require.NoError(t, err)
				t.Cleanup(func() { require.NoError(t, store.Close()) })
				stores = append(stores, store)
			}
			contract(t, stores...)
		})
	}
}

// later takes the steps back that came after bays.
var later = []string{"drop trigger events_without_trace", "drop table untraced", "drop table traces", "alter table listeners drop column revision"}

func TestWhatWasBookedBeforeIsInTheDiary(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	storetest.BookedBefore(t, store, func(statements ...string) history.Store {
		require.NoError(t, store.Close())
		db, err := sql.Open("sqlite", path)
		require.NoError(t, err)
		for _, statement := range slices.Concat(later, statements) {
			_, err := db.ExecContext(t.Context(), statement)
			require.NoError(t, err)
		}
		require.NoError(t, db.Close())
		opened, err := sqlite.Open(t.Context(), path)
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, opened.Close()) })
		return opened
	})
}
