package app

import (
	"log/slog"
	"runtime/debug"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

// logStreams writes one record for each stream, at its end.
func logStreams(log *slog.Logger) grpc.StreamServerInterceptor {
	return func(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, handle grpc.StreamHandler) error {
		start := time.Now()
		err := handle(server, stream)
		code := status.Code(err)
		level := slog.LevelInfo
		attrs := []slog.Attr{slog.String("method", info.FullMethod), slog.String("code", code.String()), slog.Duration("took", time.Since(start))}
		if code == codes.Internal {
			level = slog.LevelError
			attrs = append(attrs, slog.String("error", err.Error()))
		}
		log.LogAttrs(stream.Context(), level, "stream", attrs...)
		return err
	}
}

// recoverStreams turns a panic into an internal error, as recoverPanics does for calls.
func recoverStreams(log *slog.Logger) grpc.StreamServerInterceptor {
	return func(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, handle grpc.StreamHandler) (err error) {
		defer func() {
			if cause := recover(); cause != nil {
				log.LogAttrs(stream.Context(), slog.LevelError, "panic",
					slog.String("method", info.FullMethod), slog.Any("cause", cause), slog.String("stack", string(debug.Stack())))
				err = status.Error(codes.Internal, "internal error")
			}
		}()
		return handle(server, stream)
	}
}
