package httpapi

import (
	"fmt"
	"net/http"
	"strings"

	"connectrpc.com/vanguard"
	"connectrpc.com/vanguard/vanguardgrpc"
	"google.golang.org/grpc"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Options say how to answer.
type Options struct {
	// MaxMessage is how large a request may be, in bytes, also once it is unpacked.
	MaxMessage int
	// Health tells whether the service serves.
	Health healthpb.HealthServer
	// Calendars are asked for the files under /calendar. Nil: there are none.
	Calendars glossladderv1.BookingServiceClient
	// Reports are asked for the pages under /reports and /r. Nil: there are none.
	Reports *Reports
	// OwnHost says whether a request names this machine as the caller may call it. Nil: by loopback names alone.
	OwnHost func(*http.Request) bool
}

// New returns the handler of every service that is registered with server by now.
func New(server *grpc.Server, opts Options) (http.Handler, error) {
	transcoder, err := vanguardgrpc.NewTranscoder(server,
		vanguard.WithDefaultServiceOptions(vanguard.WithMaxMessageBufferBytes(uint32(opts.MaxMessage)), //nolint:gosec // a few MiB
			vanguard.WithTargetCompression()), // the server behind is in the same process: nothing is packed for it
		vanguard.WithCodec(func(types vanguard.TypeResolver) vanguard.Codec { return newCodec(types) }),
		unpacking(int64(opts.MaxMessage)),
		vanguard.WithUnknownHandler(http.HandlerFunc(notFound)),
	)
	if err != nil {
		return nil, fmt.Errorf("prepare JSON over HTTP: %w", err)
	}
	routes, err := routesOf(server)
	if err != nil {
		return nil, err
	}
	paths := http.NewServeMux()
	paths.Handle("GET /healthz", healthz(opts.Health))
	paths.HandleFunc("GET /openapi.json", serveOpenAPI)
	if opts.Calendars != nil {
		serveCalendars(paths, opts.Calendars)
	}
	if opts.Reports != nil {
		serveReports(paths, opts.Reports)
	}
	answers, err := packed(statusErrors(calls(transcoder, routes, int64(opts.MaxMessage))))
	if err != nil {
		return nil, err
	}
	paths.Handle("/", answers)
	return sameOrigin(paths, opts.OwnHost), nil
}

// notFound answers a path that no method has.
func notFound(w http.ResponseWriter, r *http.Request) {
	writeError(w, http.StatusNotFound, fmt.Sprintf("there is nothing at %s %s; /openapi.json lists every path", r.Method, r.URL.Path))
}

// calls looks at what the transcoder does not, or would answer in words of its own.
func calls(next http.Handler, routes routes, limit int64) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.ContentLength > limit {
			writeError(w, http.StatusRequestEntityTooLarge, fmt.Sprintf("the request has %d bytes; at most %d are taken", r.ContentLength, limit))
			return
		}
		streams(w, r)
		if !strings.HasPrefix(r.URL.Path, jsonRoot) {
			sayConnect(r)
			next.ServeHTTP(w, r)
			return
		}
		if complaint := checkMediaType(r); complaint != "" {
			writeError(w, http.StatusUnsupportedMediaType, complaint)
			return
		}
		if bad := routes.checkQuery(r); bad != nil {
			writeBadRequest(w, bad)
			return
		}
		fillBody(r)
		next.ServeHTTP(w, r)
	})
}

// jsonRoot begins every path of the JSON API. The others are of the form /package.Service/Method.
const jsonRoot = "/v1"
