package app_test

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

const jobService = "glossladder.v1.JobService"

func TestAServiceThatIsToKeepNothingSaysSo(t *testing.T) {
	conn := dial(t, app.Options{})
	_, err := v1.NewJobServiceClient(conn).ListJobs(t.Context(), &v1.ListJobsRequest{})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.ErrorContains(t, err, "--data")
	health, err := healthpb.NewHealthClient(conn).Check(t.Context(), &healthpb.HealthCheckRequest{Service: jobService})
	require.NoError(t, err)
	assert.Equal(t, healthpb.HealthCheckResponse_SERVING, health.GetStatus())
}

func TestInProcessNothingIsOpenedBeforeItIsNeeded(t *testing.T) {
	file := filepath.Join(t.TempDir(), "data", "jobs.db")
	a, err := app.New(app.Options{Data: file})
	require.NoError(t, err)
	defer func() { assert.NoError(t, a.Close()) }()
	conn, err := a.Dial()
	require.NoError(t, err)
	defer func() { assert.NoError(t, conn.Close()) }()
	_, err = v1.NewAdvisorServiceClient(conn).Recommend(t.Context(), &v1.RecommendRequest{Inspection: marked()})
	require.NoError(t, err)
	_, err = os.Stat(filepath.Dir(file))
	assert.ErrorIs(t, err, os.ErrNotExist, "a recommendation keeps nothing")
	estate(t, v1.NewJobServiceClient(conn), "spring")
	assert.FileExists(t, file)
}

// goneAddress is one that nobody listens on.
func goneAddress(t *testing.T) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	require.NoError(t, listener.Close())
	return listener.Addr().String()
}

func TestWhileTheDatabaseIsAwayAllElseIsServed(t *testing.T) {
	conn := dial(t, app.Options{Data: "postgres://shop@" + goneAddress(t) + "/shop?sslmode=disable&connect_timeout=2"})
	client := healthpb.NewHealthClient(conn)
	for service, want := range map[string]healthpb.HealthCheckResponse_ServingStatus{
		jobService: healthpb.HealthCheckResponse_NOT_SERVING, "": healthpb.HealthCheckResponse_SERVING,
		"glossladder.v1.AdvisorService": healthpb.HealthCheckResponse_SERVING,
	} {
		health, err := client.Check(t.Context(), &healthpb.HealthCheckRequest{Service: service})
		require.NoError(t, err)
		assert.Equal(t, want, health.GetStatus(), service)
	}
	_, err := v1.NewAdvisorServiceClient(conn).Recommend(t.Context(), &v1.RecommendRequest{Inspection: marked()})
	assert.NoError(t, err)
	_, err = v1.NewJobServiceClient(conn).ListJobs(t.Context(), &v1.ListJobsRequest{})
	assert.Equal(t, codes.Unavailable, status.Code(err))
	assert.ErrorContains(t, err, "does not answer; nothing was recorded")
}

func TestAServiceDoesNotStartOnWhatCanNotHoldJobs(t *testing.T) {
	dir := t.TempDir()
	letter := filepath.Join(dir, "letter.txt")
	require.NoError(t, os.WriteFile(letter, []byte("dear neighbour, this is no database, and long enough to be looked at\n"), 0o600))
	for name, row := range map[string]struct{ data, says string }{
		"a file of something else":   {letter, "letter.txt holds something else; name another file"},
		"a folder":                   {dir, "is a folder; name a file in it"},
		"a path through a file":      {filepath.Join(letter, "jobs.db"), "cannot be kept where --data says"},
		"a database's URL with gaps": {"postgres://shop@:notaport/x", "cannot be kept where --data says: the database's URL"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := app.New(app.Options{Listen: "127.0.0.1:0", Data: row.data})
			assert.ErrorContains(t, err, row.says)
		})
	}
}

func TestAStoreThatWasAwayIsFoundAgain(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "disk")
	require.NoError(t, os.WriteFile(dir, nil, 0o600)) // not mounted: there is no folder to keep a file in
	a, err := app.New(app.Options{Data: filepath.Join(dir, "jobs.db")})
	require.NoError(t, err)
	defer func() { assert.NoError(t, a.Close()) }()
	conn, err := a.Dial()
	require.NoError(t, err)
	defer func() { assert.NoError(t, conn.Close()) }()
	jobs := v1.NewJobServiceClient(conn)
	_, err = jobs.ListJobs(t.Context(), &v1.ListJobsRequest{})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	require.NoError(t, os.Remove(dir))
	estate(t, jobs, "spring")
}

// databaseURL is that of a schema of its own for a test, on the server that the environment names.
func databaseURL(t *testing.T) string {
	t.Helper()
	server := os.Getenv("GLOSSLADDER_POSTGRES_URL")
	if server == "" {
		t.Skip("NOT TESTED ON POSTGRESQL: set GLOSSLADDER_POSTGRES_URL to the URL of a server")
	}
	ctx := context.WithoutCancel(t.Context())
	conn, err := pgx.Connect(ctx, server)
	require.NoError(t, err)
	schema := fmt.Sprintf("app_%d_%d", os.Getpid(), time.Now().UnixNano())
	_, err = conn.Exec(ctx, "create schema "+schema)
	require.NoError(t, err)
	t.Cleanup(func() {
		_, err := conn.Exec(ctx, "drop schema "+schema+" cascade")
		assert.NoError(t, errors.Join(err, conn.Close(ctx)))
	})
	at, err := url.Parse(server)
	require.NoError(t, err)
	query := at.Query()
	query.Set("search_path", schema)
	at.RawQuery = query.Encode()
	return at.String()
}
