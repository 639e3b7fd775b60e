package app

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"path/filepath"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/health"
	"google.golang.org/grpc/test/bufconn"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// drainTime is how long calls in flight may take to end when the service stops.
const drainTime = 10 * time.Second

// App is the service, ready to run. Make it with New and give it back with Close.
type App struct {
	log      *slog.Logger
	server   *grpc.Server
	book     *rulebook
	record   *record
	jobs     *rpc.JobServer
	teller   *teller
	reports  *rpc.ReportServer
	inner    *grpc.ClientConn  // to this service itself, for calendars
	looks    *recordHealth     // nil unless a record is kept for others
	listener net.Listener      // nil without Options.Listen
	front    *front            // likewise
	metrics  *metrics          // nil without Options.Metrics
	gate     *access.Gate      // nil unless other machines can reach the listener
	inside   *bufconn.Listener // in-memory connections
	done     chan error
}

// New binds the listeners, loads the rules and builds the service. A faulty rule set comes back as [rules.Problems]. With
// Options.Listen and Options.StateDir a folder that does not load is no error if the last set of it that was in force is
// remembered: the service starts on that one, and says so wherever somebody asks.
func New(opts Options) (*App, error) {
	folder := opts.checkRulesDir()
	if err := opts.checkOwn(); err != nil || folder != nil && !opts.remembers() {
		return nil, errors.Join(err, folder)
	}
	a := &App{log: opts.Log, inside: bufconn.Listen(1 << 20), done: make(chan error, 1)}
	if a.log == nil {
		a.log = slog.New(slog.DiscardHandler)
	}
	if err := a.bind(opts); err != nil {
		a.unbind()
		return nil, err
	}
	if err := a.build(opts); err != nil {
		a.unbind()
		if folder != nil {
			return nil, folder // it says more than that the files of no folder do not load
		}
		return nil, err
	}
	go func() { a.done <- a.server.Serve(a.inside) }()
	return a, nil
}

// bind takes the addresses, before a rule set comes into force for nobody.
func (a *App) bind(opts Options) (err error) {
	if opts.Listen != "" {
		if a.listener, err = net.Listen("tcp", opts.Listen); err != nil {
			return fmt.Errorf("listen: %w", err)
		}
		if err := a.guard(opts); err != nil {
			return err
		}
	}
	if opts.Metrics != "" {
		a.metrics, err = bindMetrics(opts.Metrics)
	}
	return err
}

// unbind gives the addresses back after a start that came to nothing.
func (a *App) unbind() {
	if a.listener != nil {
		_ = a.listener.Close()
	}
	if a.metrics != nil {
		_ = a.metrics.close()
	}
	if a.record != nil {
		_ = a.record.close()
	}
}

func (a *App) build(opts Options) (err error) {
	h := serving()
	book := rulebookOptions{dir: opts.RulesDir, serving: opts.Listen != "", log: a.log, onEdit: tellRules(h)}
	if opts.StateDir != "" {
		book.history = rulehistory.At(filepath.Join(opts.StateDir, "rules"))
	}
	if a.book, err = openRulebook(book); err != nil {
		return err
	}
	if a.metrics != nil {
		a.metrics.registry.MustRegister(newRuleMetrics(a.book))
	}
	if err := a.keep(opts, h); err != nil {
		return err
	}
	if a.server, err = newServer(a.book, a.jobs, rpc.NewHistoryServer(a.book, a.record, ruleLoader{}), h, a.metrics, a.gate, a.log, a.booking); err != nil || a.listener == nil {
		return err
	}
	if a.inner, err = a.Dial(); err != nil {
		return err
	}
	a.front, err = newFront(a.listener, a.server, h, a.log, glossladderv1.NewBookingServiceClient(a.inner), a.reportPages(), a.gate)
	return err
}

// booking registers what is made of the record for others: reports, and what booking systems and calendars call.
func (a *App) booking(server grpc.ServiceRegistrar) {
	glossladderv1.RegisterReportServiceServer(server, a.reports)
	glossladderv1.RegisterBookingServiceServer(server, rpc.NewBookingServer(a.jobs))
	glossladderv1.RegisterWebhookServiceServer(server, rpc.NewWebhookServer(a.record, a.teller.wake))
}

// keep makes the record of vehicles and jobs. A service that listens looks at once whether it can be opened: what will not
// mend by itself is told at the start.
func (a *App) keep(opts Options, h *health.Server) error {
	a.record = newRecord(opts.Data)
	a.jobs = rpc.NewJobServer(a.book, a.record)
	a.reports = rpc.NewReportServer(a.record)
	a.teller = newTeller(opts, a.record, a.log)
	recall := newRecall(a.record, a.log)
	a.jobs.WhenRecorded(func(job string) {
		recall.heard(job)
		a.teller.wake()
	})
	a.book.recall.Store(recall)
	if opts.Listen == "" || opts.Data == "" {
		return nil
	}
	a.looks = newRecordHealth(a.record, h, a.log)
	err := a.record.look(context.Background())
	if err != nil && !away(err) {
		return err
	}
	a.looks.tell(err)
	return nil
}

// Addr is the address the service listens on, "" when it serves in process only.
func (a *App) Addr() string {
	if a.listener == nil {
		return ""
	}
	return a.listener.Addr().String()
}

// MetricsAddr is the address that metrics are served on, "" when they are not.
func (a *App) MetricsAddr() string {
	if a.metrics == nil {
		return ""
	}
	return a.metrics.listener.Addr().String()
}

// LastGood is a service that does not decide by the files of its folder, since they do not load.
type LastGood struct {
	RuleSet    string // that decides instead
	WrongSince time.Time
	Problems   rules.Problems
}

// OnLastGood says whether the service decides by an earlier set than that of its folder, and why.
func (a *App) OnLastGood() (LastGood, bool) {
	status := a.book.Status()
	return LastGood{RuleSet: status.RuleSet, WrongSince: status.WrongSince, Problems: status.Problems}, len(status.Problems) > 0
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
	if a.gate != nil {
		go a.gate.Watch(ctx)
	}
	if a.looks != nil {
		go a.looks.watch(ctx)
	}
	if a.looks != nil {
		a.teller.start()
	}
	if a.metrics != nil {
		go a.metrics.serve(a.log)
	}
	served := make(chan error, 1)
	go func() { served <- a.front.serve() }()
	select {
	case err := <-served:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	return a.Close()
}

// Close stops the service: no new calls, those in flight may finish within ten seconds. It may be called again.
func (a *App) Close() error {
	ctx, cancel := context.WithTimeout(context.Background(), drainTime)
	defer cancel()
	a.jobs.Stop()
	if a.front != nil {
		a.front.stop(ctx)
	}
	drained := make(chan struct{})
	go func() {
		a.server.GracefulStop()
		close(drained)
	}()
	select {
	case <-drained:
	case <-ctx.Done():
		a.server.Stop()
		<-drained
	}
	a.teller.close()
	err := a.record.close() // after the last call
	if a.inner != nil {
		_ = a.inner.Close() // closed by an earlier Close
	}
	if a.metrics != nil {
		err = errors.Join(err, a.metrics.close())
	}
	return err
}
