package sqlite_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
)

func TestAFullDiskRefusesAndGoesOnWhenThereIsRoom(t *testing.T) {
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("a disk that is full needs the right to mount one: %v", err)
	}
	defer func() { require.NoError(t, syscall.Unmount(folder, syscall.MNT_DETACH)) }()
	path, ballast := filepath.Join(folder, "shop.db"), filepath.Join(folder, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 300_000), 0o600))
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	saveCar(t, store)
	last, refusal := writeUntilRefused(t, store, 0)
	requireFault(t, refusal, history.Full, path)
	require.Positive(t, last)
	requireEvents(t, store, last)

	require.NoError(t, os.Remove(ballast))
	_, err = store.Append(t.Context(), storetest.Reading("job", last))
	require.NoError(t, err)
	requireEvents(t, store, last+1)

	again, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err, "a second look from outside")
	requireEvents(t, again, last+1)
	require.NoError(t, again.Close())
}

// anyoneFile makes this program one that opens the file as an ordinary user.
const anyoneFile = "GLOSSLADDER_ANYONE_FILE"

func TestAReadOnlyFileIsRefusedInWords(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	saveCar(t, store)
	require.NoError(t, store.Close())
	require.NoError(t, os.Chmod(path, 0o444))
	require.NoError(t, os.Chmod(folder, 0o555)) //nolint:gosec // the point of the test
	defer func() { require.NoError(t, os.Chmod(folder, 0o755)) }()
	for _, above := range []string{filepath.Dir(folder), filepath.Dir(filepath.Dir(folder))} {
		require.NoError(t, os.Chmod(above, 0o755))
	}
	program, err := os.Executable()
	require.NoError(t, err)
	copied := filepath.Join(filepath.Dir(folder), "program")
	data, err := os.ReadFile(program)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(copied, data, 0o755)) //nolint:gosec // another user runs it
	cmd := exec.CommandContext(t.Context(), copied, "-test.run=^TestAnyone$", "-test.v")
	cmd.Env = append(os.Environ(), anyoneFile+"="+path)
	cmd.Dir = filepath.Dir(folder)
	if os.Getuid() == 0 { // root may write anything
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", said)
	require.Contains(t, string(said), "--- PASS: TestAnyone")

	require.NoError(t, os.Chmod(folder, 0o755)) //nolint:gosec // as it was
	require.NoError(t, os.Chmod(path, 0o644))   //nolint:gosec // as it was
	again := openAt(t, path)
	_, err = again.Vehicle(t.Context(), "car")
	require.NoError(t, err, "nothing is lost")
}

// TestAnyone is no test: it opens a file that it may not write.
func TestAnyone(t *testing.T) {
	path := os.Getenv(anyoneFile)
	if path == "" {
		t.Skip("only run by TestAReadOnlyFileIsRefusedInWords")
	}
	_, err := sqlite.Open(t.Context(), path)
	requireFault(t, err, history.ReadOnly, path)
	assert.Contains(t, err.Error(), "can be read and not written; nothing was recorded; give it write permission, or name another file")
}
