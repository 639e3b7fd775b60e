package app

import (
	"context"
	"io"
	"log/slog"
	"net"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// slow is an adviser that says when it was asked, and answers when it is let.
type slow struct {
	glossladderv1.UnimplementedAdvisorServiceServer
	asked chan struct{}
	let   chan struct{}
}

func (s *slow) ListFacts(ctx context.Context, _ *glossladderv1.ListFactsRequest) (*glossladderv1.ListFactsResponse, error) {
	s.asked <- struct{}{}
	select {
	case <-s.let:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	return &glossladderv1.ListFactsResponse{RuleSet: "answered"}, nil
}

// fronted puts an adviser behind a front, as New does.
func fronted(t *testing.T, adviser *slow) (address string, server *grpc.Server, f *front, ended chan error) {
	t.Helper()
	server = grpc.NewServer()
	glossladderv1.RegisterAdvisorServiceServer(server, adviser)
	h := serving()
	healthpb.RegisterHealthServer(server, h)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	f, err = newFront(listener, server, h, slog.New(slog.DiscardHandler), nil, nil, nil)
	require.NoError(t, err)
	ended = make(chan error, 1)
	go func() { ended <- f.serve() }()
	return listener.Addr().String(), server, f, ended
}

func TestCallsInFlightFinishWhicheverWayTheyCame(t *testing.T) {
	adviser := &slow{asked: make(chan struct{}), let: make(chan struct{})}
	address, server, f, ended := fronted(t, adviser)
	conn, err := grpc.NewClient(address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close()) }()

	type answered struct {
		text string
		err  error
	}
	native, plain := make(chan answered, 1), make(chan answered, 1)
	go func() {
		resp, err := glossladderv1.NewAdvisorServiceClient(conn).ListFacts(context.Background(), &glossladderv1.ListFactsRequest{})
		native <- answered{resp.GetRuleSet(), err}
	}()
	go func() {
		resp, err := http.Get("http://" + address + "/v1/facts")
		if err != nil {
			plain <- answered{err: err}
			return
		}
		text, err := io.ReadAll(resp.Body)
		_ = resp.Body.Close()
		plain <- answered{string(text), err}
	}()
	<-adviser.asked
	<-adviser.asked

	stopped := make(chan struct{})
	go func() {
		ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
		defer cancel()
		f.stop(ctx)
		server.GracefulStop()
		close(stopped)
	}()
	require.NoError(t, <-ended, "an orderly end")
	_, err = net.Dial("tcp", address)
	require.Error(t, err, "nobody new gets in")
	close(adviser.let)
	<-stopped
	for name, got := range map[string]answered{"gRPC": <-native, "HTTP": <-plain} {
		require.NoError(t, got.err, name)
		assert.Contains(t, got.text, "answered", name)
	}
}

func TestACallThatDoesNotEndIsCutOffWhenTimeIsUp(t *testing.T) {
	adviser := &slow{asked: make(chan struct{}), let: make(chan struct{})}
	address, server, f, ended := fronted(t, adviser)
	failed := make(chan error, 1)
	go func() {
		resp, err := http.Get("http://" + address + "/v1/facts")
		if err == nil {
			_ = resp.Body.Close()
		}
		failed <- err
	}()
	<-adviser.asked
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	f.stop(ctx)
	server.Stop()
	require.Error(t, <-failed)
	require.NoError(t, <-ended)
}
