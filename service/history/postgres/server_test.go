//go:build unix

package postgres_test

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history/postgres"
)

// serverURL names a server to test on, as a user that may make schemas. Without it the tests start one of their own if
// PostgreSQL is installed.
const serverURL = "GLOSSLADDER_POSTGRES_URL"

// server is a PostgreSQL server of the tests' own, on a socket in a folder of its own.
type server struct {
	bin, folder string
	as          *syscall.Credential // the server refuses to run as root
}

var own *server

var url0 string // of the server; empty: there is none

func TestMain(m *testing.M) {
	url0 = os.Getenv(serverURL)
	if found, _ := filepath.Glob("/usr/lib/postgresql/*/bin"); url0 == "" && len(found) > 0 {
		slices.Sort(found)
		var err error
		if own, err = startServer(found[len(found)-1]); err != nil {
			panic(err)
		}
		defer own.remove()
		url0 = own.url()
	}
	m.Run()
}

func startServer(bin string) (*server, error) {
	folder, err := os.MkdirTemp("", "glossladder-postgres-")
	if err != nil {
		return nil, err
	}
	s := &server{bin: bin, folder: folder}
	if os.Getuid() == 0 {
		who, err := user.Lookup("postgres")
		if err != nil {
			return nil, fmt.Errorf("PostgreSQL does not run as root, and there is no user for it: %w", err)
		}
		uid, _ := strconv.Atoi(who.Uid)
		gid, _ := strconv.Atoi(who.Gid)
		s.as = &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
		if err := os.Chown(folder, uid, gid); err != nil {
			return nil, err
		}
	}
	if err := s.do("initdb", "-D", s.data(), "-U", "shop", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync"); err != nil {
		return nil, err
	}
	if err := s.start(); err != nil {
		return nil, err
	}
	return s, nil
}

func (s *server) data() string { return filepath.Join(s.folder, "data") }

func (s *server) url() string {
	return "postgres://shop@/postgres?" + url.Values{"host": {s.folder}, "port": {"5432"}}.Encode()
}

func (s *server) do(program string, args ...string) error {
	cmd := exec.CommandContext(context.Background(), filepath.Join(s.bin, program), args...)
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: s.as}
	cmd.Dir = s.folder
	// Not a pipe: the server lives on and would hold it open.
	log, err := os.CreateTemp(s.folder, program)
	if err != nil {
		return err
	}
	defer log.Close()
	cmd.Stdout, cmd.Stderr = log, log
	if err := cmd.Run(); err != nil {
		said, _ := os.ReadFile(log.Name())
		return fmt.Errorf("%s: %w\n%s", program, err, said)
	}
	return nil
}

func (s *server) start(settings ...string) error {
	options := "-c listen_addresses='' -c unix_socket_directories=" + s.folder + " -c max_connections=200"
	for _, setting := range settings {
		options += " -c " + setting
	}
	return s.do("pg_ctl", "-D", s.data(), "-w", "-t", "60", "-l", filepath.Join(s.folder, "log"), "-o", options, "start")
}

// stop ends the server: "fast" cuts connections off, "immediate" is a crash.
func (s *server) stop(mode string) error {
	return s.do("pg_ctl", "-D", s.data(), "-w", "-m", mode, "stop")
}

func (s *server) remove() {
	_ = s.stop("immediate")
	_ = os.RemoveAll(s.folder)
}

var schemas atomic.Int64

// freshURL makes a schema of its own for a test and gives a URL that keeps to it.
func freshURL(t testing.TB) string {
	t.Helper()
	if url0 == "" {
		t.Skip("NOT TESTED ON POSTGRESQL: set " + serverURL + " to the URL of a server, or install PostgreSQL (Debian: postgresql)")
	}
	schema := fmt.Sprintf("test_%d_%d", os.Getpid(), schemas.Add(1))
	ctx := context.WithoutCancel(t.Context())
	conn, err := pgx.Connect(ctx, url0)
	require.NoError(t, err)
	defer conn.Close(ctx)
	_, err = conn.Exec(ctx, "create schema "+schema)
	require.NoError(t, err)
	t.Cleanup(func() {
		conn, err := pgx.Connect(ctx, url0)
		require.NoError(t, err)
		defer conn.Close(ctx)
		_, err = conn.Exec(ctx, "drop schema "+schema+" cascade")
		require.NoError(t, err)
	})
	join := "?"
	if strings.Contains(url0, "?") {
		join = "&"
	}
	return url0 + join + "search_path=" + schema
}

func open(t testing.TB) *postgres.Store {
	t.Helper()
	store, err := postgres.Open(t.Context(), freshURL(t))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, store.Close()) })
	return store
}
