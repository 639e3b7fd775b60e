package sqlite_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// requireFault wants a fault of a kind, told in words that name the file.
func requireFault(t *testing.T, err error, want history.Fault, where string) {
	t.Helper()
	var fault *history.StoreError
	require.ErrorAs(t, err, &fault)
	assert.Equal(t, want, fault.Fault, "%v", err)
	assert.Equal(t, where, fault.Where)
	assert.False(t, fault.Unknown)
}

// writeUntilRefused appends readings until the store refuses, and gives the sequence of the last one that it took.
func writeUntilRefused(t *testing.T, store history.Store, from int64) (last int64, refusal error) {
	t.Helper()
	for last = from; last < 1_000_000; last++ {
		if _, err := store.Append(t.Context(), storetest.Reading("job", last)); err != nil {
			return last, err
		}
	}
	t.Fatal("nothing was ever refused")
	return 0, nil
}

// requireEvents wants exactly the events up to a sequence.
func requireEvents(t *testing.T, store *sqlite.Store, last int64) {
	t.Helper()
	events, err := eventsOf(t.Context(), store, "job")
	require.NoError(t, err)
	require.Len(t, events, int(last))
	require.NoError(t, store.Verify(t.Context()))
}

func openAt(t *testing.T, path string) *sqlite.Store {
	t.Helper()
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	return store
}

func saveCar(t *testing.T, store history.Store) {
	t.Helper()
	_, err := store.SaveVehicle(t.Context(), history.Vehicle{ID: "car", Revision: 1, Label: "car"}, 0, history.Request{})
	require.NoError(t, err)
}

func TestAFullFileRefusesAndGoesOnWhenThereIsRoom(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store := openAt(t, path)
	saveCar(t, store)
	require.NoError(t, store.LimitPages(t.Context(), "40"))
	last, refusal := writeUntilRefused(t, store, 0)
	requireFault(t, refusal, history.Full, path)
	assert.Equal(t, "the record at "+path+" has no room left; nothing was recorded; make room and try again (database or disk is full (13))", refusal.Error())
	requireEvents(t, store, last)

	require.NoError(t, store.LimitPages(t.Context(), "4000"))
	_, err := store.Append(t.Context(), storetest.Reading("job", last))
	require.NoError(t, err, "the same call is taken once there is room, and its request id was not used up")
	requireEvents(t, store, last+1)
}

func TestAFileThatIsNotOursIsLeftAlone(t *testing.T) {
	folder := t.TempDir()
	text := filepath.Join(folder, "letter.txt")
	require.NoError(t, os.WriteFile(text, []byte("Dear customer, the paint of your car is soft. It was measured at many places.\n"), 0o600))
	_, err := sqlite.Open(t.Context(), text)
	requireFault(t, err, history.Foreign, text)

	other := filepath.Join(folder, "other.db")
	db, err := sql.Open("sqlite", other)
	require.NoError(t, err)
	_, err = db.ExecContext(t.Context(), "create table songs (title text)")
	require.NoError(t, err)
	require.NoError(t, db.Close())
	_, err = sqlite.Open(t.Context(), other)
	requireFault(t, err, history.Foreign, other)

	_, err = sqlite.Open(t.Context(), filepath.Join(folder, "missing", "shop.db"))
	requireFault(t, err, history.Away, filepath.Join(folder, "missing", "shop.db"))
}

func TestAFileOfALaterProgramIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, store.Close())
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	_, err = db.ExecContext(t.Context(), "insert into goose_db_version (version_id, is_applied) values (999, 1)")
	require.NoError(t, err)
	require.NoError(t, db.Close())
	_, err = sqlite.Open(t.Context(), path)
	requireFault(t, err, history.Newer, path)
}

func TestADamagedFileIsToldOf(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	saveCar(t, store)
	for last := range int64(200) {
		_, err := store.Append(t.Context(), storetest.Reading("job", last))
		require.NoError(t, err)
	}
	require.NoError(t, store.Close())
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	info, err := file.Stat()
	require.NoError(t, err)
	// The second half is events; what is read on opening stands in the first.
	for at := info.Size() / 2 / 4096 * 4096; at < info.Size(); at += 4096 {
		_, err = file.WriteAt([]byte("not what was written"), at)
		require.NoError(t, err)
	}
	require.NoError(t, file.Close())
	again := openAt(t, path)
	requireFault(t, again.Verify(t.Context()), history.Damaged, path)
}

func TestManyProgramsMayMakeOneFileAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	var all sync.WaitGroup
	errs := make([]error, 8)
	for i := range errs {
		all.Go(func() {
			store, err := sqlite.Open(t.Context(), path)
			if err == nil {
				_, err = store.SaveVehicle(t.Context(), history.Vehicle{ID: fmt.Sprintf("car-%d", i), Revision: 1, Label: "car"}, 0, history.Request{})
				err = errors.Join(err, store.Close())
			}
			errs[i] = err
		})
	}
	all.Wait()
	require.NoError(t, errors.Join(errs...))
	vehicles, err := openAt(t, path).ListVehicles(t.Context(), history.VehicleQuery{Limit: 100})
	require.NoError(t, err)
	assert.Len(t, vehicles, 8)
}

func TestEventsCannotBeChangedByHandEither(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store := openAt(t, path)
	saveCar(t, store)
	_, err := store.Append(t.Context(), storetest.Reading("job", 0))
	require.NoError(t, err)
	db, err := sql.Open("sqlite", path)
	require.NoError(t, err)
	defer db.Close()
	for _, statement := range []string{"update events set body = '{}'", "delete from events"} {
		_, err = db.ExecContext(t.Context(), statement)
		assert.ErrorContains(t, err, "events are only ever added", statement)
	}
}

func TestBackupWhileWriting(t *testing.T) {
	folder := t.TempDir()
	store := openAt(t, filepath.Join(folder, "shop.db"))
	saveCar(t, store)
	ctx, stop := context.WithCancel(t.Context())
	var written sync.WaitGroup
	var last int64
	began := make(chan struct{})
	written.Go(func() {
		for ; ctx.Err() == nil; last++ {
			if _, err := store.Append(context.WithoutCancel(ctx), storetest.Reading("job", last)); !assert.NoError(t, err) {
				return
			}
			if last == 20 {
				close(began)
			}
		}
	})
	<-began
	for i := range 5 {
		require.NoError(t, store.Backup(t.Context(), filepath.Join(folder, fmt.Sprintf("backup-%d.db", i))))
	}
	stop()
	written.Wait()
	before := 20
	for i := range 5 {
		copied := openAt(t, filepath.Join(folder, fmt.Sprintf("backup-%d.db", i)))
		events, err := eventsOf(t.Context(), copied, "job")
		require.NoError(t, err)
		assert.GreaterOrEqual(t, len(events), before, "each backup has what was there when it began")
		assert.LessOrEqual(t, len(events), int(last))
		require.NoError(t, copied.Verify(t.Context()))
		_, err = copied.Append(t.Context(), storetest.Reading("job", int64(len(events))))
		require.NoError(t, err, "a backup is a store")
		before = len(events)
	}
	err := store.Backup(t.Context(), filepath.Join(folder, "backup-0.db"))
	require.ErrorIs(t, err, fs.ErrExist)
	left, err := filepath.Glob(filepath.Join(folder, "*.part*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestAClosedStoreSaysSo(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, store.Close())
	_, err = store.Append(t.Context(), storetest.Reading("job", 0))
	requireFault(t, err, history.Away, path)
}
