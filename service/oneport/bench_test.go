package oneport_test

import (
	"context"
	"net"
	"net/http"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	"github.com/glossladder/glossladder/service/oneport"
)

// BenchmarkCall is one small call, from 32 callers over four connections, to the same server in three places: alone on a port,
// behind the splitter, and behind net/http, as it would be without the splitter. Run it with -count 10 and compare medians.
func BenchmarkCall(b *testing.B) {
	for _, place := range []struct {
		name string
		put  func(*testing.B, net.Listener, *grpc.Server)
	}{
		{"alone on a port", alone}, {"one port", behindSplitter}, {"behind net/http", behindHTTP},
	} {
		b.Run(place.name, func(b *testing.B) {
			server := grpc.NewServer()
			healthpb.RegisterHealthServer(server, health.NewServer())
			listener, err := net.Listen("tcp", "127.0.0.1:0")
			require.NoError(b, err)
			place.put(b, listener, server)
			clients := make([]healthpb.HealthClient, 4)
			for i := range clients {
				conn, err := grpc.NewClient(listener.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
				require.NoError(b, err)
				b.Cleanup(func() { require.NoError(b, conn.Close()) })
				clients[i] = healthpb.NewHealthClient(conn)
			}
			var next atomic.Uint64
			b.SetParallelism(16) // for each of two processors
			b.ResetTimer()
			b.RunParallel(func(pb *testing.PB) {
				client := clients[next.Add(1)%uint64(len(clients))]
				for pb.Next() {
					if _, err := client.Check(context.Background(), &healthpb.HealthCheckRequest{}); err != nil {
						b.Error(err)
						return
					}
				}
			})
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "calls/s")
		})
	}
}

func alone(b *testing.B, listener net.Listener, server *grpc.Server) {
	b.Helper()
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	b.Cleanup(func() {
		server.Stop()
		require.NoError(b, <-ended)
	})
}

func behindSplitter(b *testing.B, listener net.Listener, server *grpc.Server) {
	b.Helper()
	splitter := oneport.New(listener, time.Minute)
	split := make(chan error, 1)
	go func() { split <- splitter.Run() }()
	alone(b, splitter.PriorKnowledge(), server)
	b.Cleanup(func() {
		require.NoError(b, splitter.Close())
		require.NoError(b, <-split)
	})
}

func behindHTTP(b *testing.B, listener net.Listener, server *grpc.Server) {
	b.Helper()
	protocols := new(http.Protocols)
	protocols.SetUnencryptedHTTP2(true)
	front := &http.Server{Handler: server, Protocols: protocols, ReadHeaderTimeout: time.Minute}
	ended := make(chan error, 1)
	go func() { ended <- front.Serve(listener) }()
	b.Cleanup(func() {
		require.NoError(b, front.Close())
		require.ErrorIs(b, <-ended, http.ErrServerClosed)
	})
}
