package app

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"
)

// drainTime is how long calls in flight may take to end when the service stops.
const drainTime = 10 * time.Second

// App is the service, ready to run. Make it with New and give it back with Close.
type App struct {
	server   *grpc.Server
	book     *rulebook
	listener net.Listener      // nil without Options.Listen
	inside   *bufconn.Listener // in-memory connections
	done     chan error
}

// New loads the rules, builds the service and binds its listener. A faulty rule set comes back as [rules.Problems].
func New(opts Options) (*App, error) {
	if err := opts.Validate(); err != nil {
		return nil, err
	}
	log := opts.Log
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	h := serving()
	book, err := openRulebook(opts.RulesDir, log, tellRules(h))
	if err != nil {
		return nil, err
	}
	server, err := newServer(book, h, log)
	if err != nil {
		return nil, err
	}
	a := &App{server: server, book: book, inside: bufconn.Listen(1 << 20), done: make(chan error, 1)}
	if opts.Listen != "" {
		if a.listener, err = net.Listen("tcp", opts.Listen); err != nil {
			return nil, fmt.Errorf("listen: %w", err)
		}
	}
	go func() { a.done <- server.Serve(a.inside) }()
	return a, nil
}

// Addr is the address the service listens on, "" when it serves in process only.
func (a *App) Addr() string {
	if a.listener == nil {
		return ""
	}
	return a.listener.Addr().String()
}

// Dial connects in memory; it needs no Run. The caller closes the connection.
func (a *App) Dial() (*grpc.ClientConn, error) {
	return grpc.NewClient("passthrough:in-process",
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return a.inside.DialContext(ctx) }),
		grpc.WithTransportCredentials(insecure.NewCredentials()))
}

// Run serves until ctx ends, then lets calls in flight finish. It returns nil after such an orderly end. While it runs it
// takes up edits of the rules folder.
func (a *App) Run(ctx context.Context) error {
	if a.listener == nil {
		return errors.New("there is no address to serve on; set Options.Listen")
	}
	go a.book.watch(ctx)
	served := make(chan error, 1)
	go func() { served <- a.server.Serve(a.listener) }()
	select {
	case err := <-served:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	return a.Close()
}

// Close stops the service: no new calls, those in flight may finish within ten seconds. It may be called again.
func (a *App) Close() error {
	drained := make(chan struct{})
	go func() {
		a.server.GracefulStop()
		close(drained)
	}()
	select {
	case <-drained:
	case <-time.After(drainTime):
		a.server.Stop()
		<-drained
	}
	return nil
}
