package httpapi

import (
	"encoding/json"
	"net/http"

	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"
)

// healthz tells over plain HTTP what the gRPC health service tells: of the whole, or of ?service=NAME. Whatever is not serving
// is 503, so that a probe needs to read no JSON.
func healthz(health healthpb.HealthServer) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := r.URL.Query().Get("service")
		answer, err := health.Check(r.Context(), &healthpb.HealthCheckRequest{Service: name})
		if status.Code(err) == codes.NotFound {
			writeError(w, http.StatusNotFound, "no service is called "+name)
			return
		}
		code := http.StatusOK
		if err != nil || answer.GetStatus() != healthpb.HealthCheckResponse_SERVING {
			code = http.StatusServiceUnavailable
		}
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(code)
		_ = json.NewEncoder(w).Encode(struct {
			Status string `json:"status"`
		}{answer.GetStatus().String()})
	})
}
