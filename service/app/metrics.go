package app

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"time"

	grpcmetrics "github.com/grpc-ecosystem/go-grpc-middleware/providers/prometheus"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// metrics are what a monitoring system reads of the service: calls, rules in force, and the process.
type metrics struct {
	listener net.Listener
	server   *http.Server
	registry *prometheus.Registry
	calls    *grpcmetrics.ServerMetrics
}

// bindMetrics takes the address. Nothing is answered before serve.
func bindMetrics(address string) (*metrics, error) {
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("listen for metrics: %w", err)
	}
	m := &metrics{listener: listener, registry: prometheus.NewRegistry(), calls: grpcmetrics.NewServerMetrics(grpcmetrics.WithServerHandlingTimeHistogram())}
	m.registry.MustRegister(m.calls, collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	paths := http.NewServeMux()
	paths.Handle("GET /metrics", promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{}))
	m.server = &http.Server{Handler: paths, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 1 << 16}
	return m, nil
}

// serve answers until close.
func (m *metrics) serve(log *slog.Logger) {
	if err := m.server.Serve(m.listener); !errors.Is(err, http.ErrServerClosed) {
		log.Error("metrics are not served any more", slog.String("error", err.Error()))
	}
}

func (m *metrics) close() error {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	err := m.server.Shutdown(ctx)
	if closed := m.listener.Close(); !errors.Is(closed, net.ErrClosed) { // it was never served from
		err = errors.Join(err, closed)
	}
	return err
}

// ruleMetrics reads the rulebook each time that it is asked.
type ruleMetrics struct {
	book                                                          *rulebook
	info, good, since, age, success, failure, wrong, reload, edit *prometheus.Desc
}

func newRuleMetrics(book *rulebook) *ruleMetrics {
	describe := func(name, help string, labels ...string) *prometheus.Desc {
		return prometheus.NewDesc("glossladder_rules_"+name, help, labels, nil)
	}
	return &ruleMetrics{
		book:    book,
		info:    describe("info", "1 for the rule set in force, by its content hash.", "rule_set"),
		good:    describe("files_in_force", "1 while the files of the rules folder are in force, 0 while they do not load and an earlier set decides."),
		since:   describe("in_force_since_timestamp_seconds", "When the set came into force."),
		age:     describe("in_force_age_seconds", "For how long the set has been in force."),
		success: describe("last_success_timestamp_seconds", "When the files of the rules folder last loaded."),
		failure: describe("last_failure_timestamp_seconds", "When they last did not load."),
		wrong:   describe("wrong_since_timestamp_seconds", "Since when they have not loaded; there only while they do not."),
		reload:  describe("reloads_total", "How often the folder was taken up or refused since the service started.", "outcome"),
		edit:    describe("edits_total", "How many edits by calls were written since the service started."),
	}
}

// Describe is for the registry.
func (r *ruleMetrics) Describe(to chan<- *prometheus.Desc) {
	for _, d := range []*prometheus.Desc{r.info, r.good, r.since, r.age, r.success, r.failure, r.wrong, r.reload, r.edit} {
		to <- d
	}
}

// Collect is for the registry.
func (r *ruleMetrics) Collect(to chan<- prometheus.Metric) {
	status := r.book.Status()
	gauge := func(d *prometheus.Desc, value float64, labels ...string) {
		to <- prometheus.MustNewConstMetric(d, prometheus.GaugeValue, value, labels...)
	}
	moment := func(d *prometheus.Desc, at time.Time) {
		if !at.IsZero() {
			gauge(d, float64(at.UnixMilli())/1000)
		}
	}
	good := 1.0
	if len(status.Problems) > 0 {
		good = 0
	}
	gauge(r.info, 1, status.RuleSet)
	gauge(r.good, good)
	gauge(r.age, time.Since(status.Since).Seconds())
	moment(r.since, status.Since)
	moment(r.success, status.LastSuccess)
	moment(r.failure, status.LastFailure)
	moment(r.wrong, status.WrongSince)
	count := func(d *prometheus.Desc, n int64, labels ...string) {
		to <- prometheus.MustNewConstMetric(d, prometheus.CounterValue, float64(n), labels...)
	}
	count(r.reload, r.book.counts.takenUp.Load(), "taken_up")
	count(r.reload, r.book.counts.refused.Load(), "refused")
	count(r.edit, r.book.counts.edits.Load())
}
