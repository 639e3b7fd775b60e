package httpapi

import (
	"net/http"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	statuspb "google.golang.org/genproto/googleapis/rpc/status"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/types/known/anypb"
)

// writeError answers with a google.rpc.Status, as every error over HTTP is told.
func writeError(w http.ResponseWriter, status int, says string) {
	writeStatus(w, status, &statuspb.Status{Code: int32(codeOf(status)), Message: says}) //nolint:gosec // a code is small
}

// writeBadRequest answers with every violation by the name of its field, as the checks behind the door do.
func writeBadRequest(w http.ResponseWriter, bad *errdetails.BadRequest) {
	lines := make([]string, len(bad.GetFieldViolations()))
	for i, v := range bad.GetFieldViolations() {
		lines[i] = v.GetField() + ": " + v.GetDescription()
	}
	out := &statuspb.Status{Code: int32(codes.InvalidArgument), Message: "request is not valid: " + strings.Join(lines, "; ")}
	if detail, err := anypb.New(bad); err == nil {
		out.Details = append(out.Details, detail)
	}
	writeStatus(w, http.StatusBadRequest, out)
}

func writeStatus(w http.ResponseWriter, status int, out *statuspb.Status) {
	text, err := protojson.MarshalOptions{UseProtoNames: true, EmitDefaultValues: true}.Marshal(out)
	if err != nil { // it holds a message that is not known here
		text = []byte(`{"code":13,"message":"internal error","details":[]}`)
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Del("Content-Length")
	w.WriteHeader(status)
	_, _ = w.Write(text)
}

// codeOf is the code that a gRPC caller would get.
func codeOf(status int) codes.Code {
	switch status {
	case http.StatusNotFound:
		return codes.NotFound
	case http.StatusForbidden:
		return codes.PermissionDenied
	case http.StatusMethodNotAllowed:
		return codes.Unimplemented
	case http.StatusRequestEntityTooLarge:
		return codes.ResourceExhausted
	case http.StatusServiceUnavailable:
		return codes.Unavailable
	case http.StatusInternalServerError:
		return codes.Internal
	}
	return codes.InvalidArgument
}

// statusErrors turns errors that were written as plain text, as net/http does and the transcoder before it knows the method,
// into JSON.
func statusErrors(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		caught := &plainErrors{ResponseWriter: w}
		next.ServeHTTP(caught, r)
	})
}

type plainErrors struct {
	http.ResponseWriter
	status int // of a plain error whose text has not come yet
	told   bool
}

// WriteHeader holds a plain error back.
func (w *plainErrors) WriteHeader(status int) {
	if status >= http.StatusBadRequest && strings.HasPrefix(w.Header().Get("Content-Type"), "text/plain") {
		w.status = status
		return
	}
	w.ResponseWriter.WriteHeader(status)
}

// Write tells an error that was held back.
func (w *plainErrors) Write(text []byte) (int, error) {
	if w.status == 0 {
		return w.ResponseWriter.Write(text)
	}
	if !w.told {
		w.told = true
		writeError(w.ResponseWriter, w.status, strings.ToLower(strings.TrimSpace(string(text))))
	}
	return len(text), nil
}

// Flush is for calls that stream.
func (w *plainErrors) Flush() {
	if w.status == 0 {
		_ = http.NewResponseController(w.ResponseWriter).Flush()
	}
}

// Unwrap lets limits of time be set.
func (w *plainErrors) Unwrap() http.ResponseWriter { return w.ResponseWriter }
