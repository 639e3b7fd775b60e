package app

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/health"

	"github.com/glossladder/glossladder/clients/web"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/httpapi"
	"github.com/glossladder/glossladder/service/oneport"
)

// Limits of calls over HTTP that do not stream; each covers the question, the work and the answer.
const (
	readTime  = callTime + 10*time.Second
	writeTime = callTime + 30*time.Second
	idleTime  = 2 * time.Minute
	maxHeader = 64 << 10
)

// front is the one port: gRPC goes straight to the server, the page in a browser comes from memory, all else goes through HTTP
// to the same server.
type front struct {
	port   *oneport.Splitter
	server *grpc.Server
	web    *http.Server
}

// newFront puts a server, with all its services registered, behind a listener.
func newFront(listener net.Listener, server *grpc.Server, h *health.Server, log *slog.Logger, calendars glossladderv1.BookingServiceClient, reports *httpapi.Reports, gate *access.Gate) (*front, error) {
	settings := httpapi.Options{MaxMessage: maxMessage, Health: h, Calendars: calendars, Reports: reports}
	if gate != nil {
		settings.OwnHost = gate.OwnHost
	}
	handler, err := httpapi.New(server, settings)
	if err != nil {
		return nil, err
	}
	if handler, err = web.Over(handler); err != nil {
		return nil, err
	}
	f := &front{
		port:   oneport.New(listener, handshakeTime),
		server: server,
		web: &http.Server{
			Handler: handler, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn),
			ReadHeaderTimeout: handshakeTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime, MaxHeaderBytes: maxHeader,
		},
	}
	if gate != nil {
		f.web.Handler, f.web.ConnContext = gate.Handler(handler), gate.ConnContext
	}
	return f, nil
}

// serve answers until stop. It returns the first error of a part that ends before.
func (f *front) serve() error {
	ended := make(chan error, 3)
	go func() { ended <- f.port.Run() }()
	go func() { ended <- f.server.Serve(f.port.PriorKnowledge()) }()
	go func() { ended <- f.web.Serve(f.port.Others()) }()
	err := <-ended
	if errors.Is(err, net.ErrClosed) || errors.Is(err, http.ErrServerClosed) || errors.Is(err, grpc.ErrServerStopped) {
		return nil
	}
	return err
}

// stop takes no new connections and lets calls over HTTP finish until ctx ends. It must come before the end of the gRPC server,
// which cuts off the calls that reach it through HTTP.
func (f *front) stop(ctx context.Context) {
	_ = f.port.Close() // nobody can mend a listener that does not close
	if f.web.Shutdown(ctx) != nil {
		_ = f.web.Close()
	}
}
