package httpapi

import (
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"
)

// checkMediaType says what is wrong with the media type of a JSON call, or "", and then leaves it in the one form that the
// transcoder knows.
func checkMediaType(r *http.Request) string {
	given := r.Header.Get("Content-Type")
	if r.ContentLength == 0 {
		r.Header.Del("Content-Type")
		return ""
	}
	media, params, err := mime.ParseMediaType(given)
	if err != nil || media != "application/json" || !strings.EqualFold(params["charset"], "utf-8") && params["charset"] != "" {
		return fmt.Sprintf("a body is JSON in UTF-8; send it with Content-Type: application/json, not %q", given)
	}
	r.Header.Set("Content-Type", "application/json")
	return ""
}

// fillBody lets a call that has nothing to say leave its body out.
func fillBody(r *http.Request) {
	if r.ContentLength != 0 || r.Method != http.MethodPost && r.Method != http.MethodPatch {
		return
	}
	r.Header.Set("Content-Type", "application/json")
	r.Body, r.ContentLength = io.NopCloser(strings.NewReader("{}")), 2
}

// sayConnect marks a call of a method by its name as Connect. The header that says so may be left out by the protocol, and is
// by whoever tries a call by hand.
func sayConnect(r *http.Request) {
	media, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err == nil && (media == "application/json" || media == "application/proto") {
		r.Header.Set("Content-Type", media)
		r.Header.Set("Connect-Protocol-Version", "1")
	}
}

// streams lifts the limits of time from calls that may last: the server's limits are made for a question and its answer.
func streams(w http.ResponseWriter, r *http.Request) {
	media := r.Header.Get("Content-Type")
	if !strings.HasPrefix(media, "application/connect+") && !strings.HasPrefix(media, "application/grpc") {
		return
	}
	connection := http.NewResponseController(w)
	_ = connection.SetReadDeadline(time.Time{}) // a connection that has no such limit needs none lifted
	_ = connection.SetWriteDeadline(time.Time{})
}
