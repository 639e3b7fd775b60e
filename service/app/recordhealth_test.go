package app

import (
	"log/slog"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func TestHealthFollowsTheRecordOfJobs(t *testing.T) {
	disk := filepath.Join(t.TempDir(), "disk")
	require.NoError(t, os.WriteFile(disk, nil, 0o600)) // not mounted: there is no folder to keep a file in
	kept := newRecord(filepath.Join(disk, "jobs.db"))
	h := health.NewServer()
	r := newRecordHealth(kept, h, slog.New(slog.DiscardHandler))
	status := func() healthpb.HealthCheckResponse_ServingStatus {
		said, err := h.Check(t.Context(), &healthpb.HealthCheckRequest{Service: glossladderv1.JobService_ServiceDesc.ServiceName})
		require.NoError(t, err)
		return said.GetStatus()
	}
	require.Error(t, r.look(t.Context()))
	assert.Equal(t, healthpb.HealthCheckResponse_NOT_SERVING, status())
	require.NoError(t, os.Remove(disk))
	require.NoError(t, r.look(t.Context()))
	assert.Equal(t, healthpb.HealthCheckResponse_SERVING, status())
	require.NoError(t, kept.close())
	require.Error(t, r.look(t.Context()), "nothing is opened any more once it was closed")
	require.NoError(t, kept.close(), "it may be closed again")
}
