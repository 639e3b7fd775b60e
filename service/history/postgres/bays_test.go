//go:build unix

package postgres_test

import (
	"slices"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// Two stores have connections of their own, as two replicas do.
func TestTwoReplicasBookOneBay(t *testing.T) {
	for name, contract := range map[string]func(*testing.T, ...history.Store){"one gets the time": storetest.OneGetsTheTime, "work lies apart": storetest.LaidApart} {
		t.Run(name, func(t *testing.T) {
			url := freshURL(t)
			var stores []history.Store
			for range 2 {
				store, err := postgres.Open(t.Context(), url)
				require.NoError(t, err)
				t.Cleanup(func() { require.NoError(t, store.Close()) })
				stores = append(stores, store)
			}
			contract(t, stores...)
		})
	}
}

// later takes the steps back that came after bays.
var later = []string{
	"drop trigger events_without_trace on events", "drop function miss_trace", "drop table untraced", "drop table traces",
	"alter table listeners drop column revision",
}

func TestWhatWasBookedBeforeIsInTheDiary(t *testing.T) {
	url := freshURL(t)
	store, err := postgres.Open(t.Context(), url)
	require.NoError(t, err)
	storetest.BookedBefore(t, store, func(statements ...string) history.Store {
		require.NoError(t, store.Close())
		conn, err := pgx.Connect(t.Context(), url)
		require.NoError(t, err)
		for _, statement := range slices.Concat(later, statements) {
			_, err := conn.Exec(t.Context(), statement)
			require.NoError(t, err)
		}
		require.NoError(t, conn.Close(t.Context()))
		opened, err := postgres.Open(t.Context(), url)
		require.NoError(t, err)
		t.Cleanup(func() { require.NoError(t, opened.Close()) })
		return opened
	})
}
