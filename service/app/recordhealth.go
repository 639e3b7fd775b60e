package app

import (
	"context"
	"log/slog"
	"time"

	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

const (
	// answerTime is how long a store may take to answer before it counts as away.
	answerTime = 5 * time.Second
	// lookAtStoreEvery is how often a service that listens looks whether the store answers.
	lookAtStoreEvery = 5 * time.Second
)

// recordHealth keeps health in step with the store: JobService is NOT_SERVING while the store does not answer. All that keeps
// nothing goes on serving.
type recordHealth struct {
	record *record
	health *health.Server
	log    *slog.Logger
	good   bool
}

func newRecordHealth(r *record, h *health.Server, log *slog.Logger) *recordHealth {
	return &recordHealth{record: r, health: h, log: log, good: true}
}

// look looks once and tells what has changed.
func (r *recordHealth) look(ctx context.Context) error {
	err := r.record.look(ctx)
	if ctx.Err() == nil {
		r.tell(err)
	}
	return err
}

// tell takes what a look found.
func (r *recordHealth) tell(err error) {
	if (err == nil) == r.good {
		return
	}
	r.good = err == nil
	now := healthpb.HealthCheckResponse_SERVING
	if r.good {
		r.log.Info("the record of jobs answers again")
	} else {
		now = healthpb.HealthCheckResponse_NOT_SERVING
		r.log.Error("the record of jobs does not answer; everything else is served", slog.String("error", err.Error()))
	}
	r.health.SetServingStatus(glossladderv1.JobService_ServiceDesc.ServiceName, now)
}

// watch looks until ctx ends.
func (r *recordHealth) watch(ctx context.Context) {
	clock := time.NewTicker(lookAtStoreEvery)
	defer clock.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-clock.C:
			_ = r.look(ctx) // told already
		}
	}
}
