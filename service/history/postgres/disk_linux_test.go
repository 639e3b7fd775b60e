package postgres_test

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// TestAFullDiskRefusesAndGoesOnWhenThereIsRoom has a server of its own: one that lost a disk does not start again.
func TestAFullDiskRefusesAndGoesOnWhenThereIsRoom(t *testing.T) {
	ownServer(t)
	server, err := startServer(own.bin)
	require.NoError(t, err)
	t.Cleanup(server.remove)
	folder := filepath.Join(server.folder, "tiny")
	require.NoError(t, os.Mkdir(folder, 0o700))
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("a disk that is full needs the right to mount one: %v", err)
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(folder, syscall.MNT_DETACH)) })
	require.NoError(t, os.Chown(folder, int(server.as.Uid), int(server.as.Gid)))
	ballast := filepath.Join(folder, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 300_000), 0o600))

	admin, err := pgx.Connect(t.Context(), server.url())
	require.NoError(t, err)
	_, err = admin.Exec(t.Context(), "create tablespace tiny location '"+strings.ReplaceAll(folder, "'", "''")+"'")
	require.NoError(t, err)
	require.NoError(t, admin.Close(t.Context()))
	store, err := postgres.Open(t.Context(), server.url()+"&default_tablespace=tiny")
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	saveCar(t, store)

	last := int64(0)
	for ; err == nil; last++ {
		_, err = store.Append(t.Context(), storetest.Reading("job", last))
	}
	last--
	requireFault(t, err, history.Full)
	require.Positive(t, last)
	events, err := store.Events(t.Context(), "job", 0, history.MostOnPage)
	require.NoError(t, err)
	require.Len(t, events, int(last))

	require.NoError(t, os.Remove(ballast))
	_, err = store.Append(t.Context(), storetest.Reading("job", last))
	require.NoError(t, err, "the same call is taken once there is room")
}
