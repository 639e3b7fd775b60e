package app

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"runtime/debug"
	"time"

	"buf.build/go/protovalidate"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/keepalive"
	"google.golang.org/grpc/reflection"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/rpc"
)

// Limits of one server: a whole vehicle with every reading is well under 1 MiB.
const (
	maxMessage    = 4 << 20
	maxStreams    = 1000
	callTime      = 30 * time.Second
	handshakeTime = 10 * time.Second
)

func newServer(book *rulebook, jobs *rpc.JobServer, history *rpc.HistoryServer, h *health.Server, m *metrics, gate *access.Gate, log *slog.Logger, more ...func(grpc.ServiceRegistrar)) (*grpc.Server, error) {
	validator, err := protovalidate.New()
	if err != nil {
		return nil, fmt.Errorf("prepare validation: %w", err)
	}
	var chain []grpc.UnaryServerInterceptor
	var streams []grpc.StreamServerInterceptor
	if m != nil {
		chain, streams = append(chain, m.calls.UnaryServerInterceptor()), append(streams, m.calls.StreamServerInterceptor())
	}
	chain = append(chain, logCalls(log), recoverPanics(log), limitTime, rpc.Validate(validator))
	streams = append(streams, logStreams(log), recoverStreams(log), rpc.ValidateStream(validator))
	options := []grpc.ServerOption{
		grpc.MaxRecvMsgSize(maxMessage), grpc.MaxConcurrentStreams(maxStreams), grpc.ConnectionTimeout(handshakeTime),
		grpc.KeepaliveEnforcementPolicy(keepalive.EnforcementPolicy{MinTime: 10 * time.Second, PermitWithoutStream: true}),
		grpc.KeepaliveParams(keepalive.ServerParameters{Time: 30 * time.Second, Timeout: 10 * time.Second}),
		grpc.ChainUnaryInterceptor(chain...), grpc.ChainStreamInterceptor(streams...),
	}
	if gate != nil {
		options = append(options, grpc.InTapHandle(gate.Tap))
	}
	server := grpc.NewServer(options...)
	glossladderv1.RegisterAdvisorServiceServer(server, rpc.NewAdvisorServer(book))
	glossladderv1.RegisterRulesServiceServer(server, rpc.NewRulesServer(book))
	glossladderv1.RegisterJobServiceServer(server, jobs)
	glossladderv1.RegisterHistoryServiceServer(server, history)
	glossladderv1.RegisterPlanServiceServer(server, rpc.NewPlanServer(book, jobs, time.Now))
	for _, register := range more {
		register(server)
	}
	healthpb.RegisterHealthServer(server, h)
	reflection.Register(server)
	if m != nil {
		m.calls.InitializeMetrics(server)
	}
	return server, nil
}

// rulesFolder is the name under which health tells whether the files of the shop's rules are in force: NOT_SERVING while an
// edit is refused and an earlier set decides. The services themselves go on serving.
const rulesFolder = "glossladder.rules"

// serving is health that says what is served: the whole, and each service by name.
func serving() *health.Server {
	h := health.NewServer()
	for _, name := range []string{
		glossladderv1.AdvisorService_ServiceDesc.ServiceName, glossladderv1.RulesService_ServiceDesc.ServiceName,
		glossladderv1.PlanService_ServiceDesc.ServiceName, glossladderv1.JobService_ServiceDesc.ServiceName,
		glossladderv1.ReportService_ServiceDesc.ServiceName, glossladderv1.BookingService_ServiceDesc.ServiceName, glossladderv1.WebhookService_ServiceDesc.ServiceName,
		glossladderv1.HistoryService_ServiceDesc.ServiceName, rulesFolder,
	} {
		h.SetServingStatus(name, healthpb.HealthCheckResponse_SERVING)
	}
	return h
}

// tellRules keeps health in step with the shop's files.
func tellRules(h *health.Server) func(good bool) {
	return func(good bool) {
		status := healthpb.HealthCheckResponse_NOT_SERVING
		if good {
			status = healthpb.HealthCheckResponse_SERVING
		}
		h.SetServingStatus(rulesFolder, status)
	}
}

// logCalls writes one record for each call. What a caller sent is not logged.
func logCalls(log *slog.Logger) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (any, error) {
		start := time.Now()
		resp, err := handle(ctx, req)
		code := status.Code(err)
		level := slog.LevelInfo
		attrs := []slog.Attr{slog.String("method", info.FullMethod), slog.String("code", code.String()), slog.Duration("took", time.Since(start))}
		if code == codes.Internal {
			level = slog.LevelError
			attrs = append(attrs, slog.String("error", err.Error()))
		}
		log.LogAttrs(ctx, level, "call", attrs...)
		return resp, err
	}
}

// recoverPanics turns a panic into an internal error, so that one bad call cannot stop the service.
func recoverPanics(log *slog.Logger) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (resp any, err error) {
		defer func() {
			if cause := recover(); cause != nil {
				log.LogAttrs(ctx, slog.LevelError, "panic", slog.String("method", info.FullMethod), slog.Any("cause", cause), slog.String("stack", string(debug.Stack())))
				resp, err = nil, status.Error(codes.Internal, "internal error")
			}
		}()
		return handle(ctx, req)
	}
}

// limitTime ends calls that nobody gave a deadline.
func limitTime(ctx context.Context, req any, _ *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (any, error) {
	if err := ctx.Err(); err != nil {
		return nil, deadlineStatus(err)
	}
	ctx, cancel := context.WithTimeout(ctx, callTime)
	defer cancel()
	return handle(ctx, req)
}

func deadlineStatus(err error) error {
	if errors.Is(err, context.DeadlineExceeded) {
		return status.Error(codes.DeadlineExceeded, "the deadline passed before the call began")
	}
	return status.Error(codes.Canceled, "the caller gave up before the call began")
}
