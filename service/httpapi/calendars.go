package httpapi

import (
	"context"
	"net/http"
	"strconv"
	"strings"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// serveCalendars adds the calendars that programs subscribe to: of a job and of a bay. They are asked for with plain GET again and
// again, so they say when nothing has changed.
func serveCalendars(paths *http.ServeMux, from glossladderv1.BookingServiceClient) {
	paths.HandleFunc("GET /calendar/jobs/{file}", calendar("jobs/", func(ctx context.Context, name string) (*glossladderv1.Calendar, error) {
		return from.GetJobCalendar(ctx, &glossladderv1.GetJobCalendarRequest{Name: name})
	}))
	paths.HandleFunc("GET /calendar/bays/{file}", calendar("bays/", func(ctx context.Context, name string) (*glossladderv1.Calendar, error) {
		return from.GetBayCalendar(ctx, &glossladderv1.GetBayCalendarRequest{Name: name})
	}))
}

const calendarEnding = ".ics"

func calendar(collection string, get func(context.Context, string) (*glossladderv1.Calendar, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		id, ok := strings.CutSuffix(r.PathValue("file"), calendarEnding)
		if !ok {
			writeError(w, http.StatusNotFound, "a calendar is at "+r.URL.Path+calendarEnding)
			return
		}
		found, err := get(r.Context(), collection+id)
		if err != nil {
			st := status.Convert(err)
			writeStatus(w, httpStatus(st.Code()), st.Proto())
			return
		}
		w.Header().Set("ETag", strconv.Quote(found.GetEtag()))
		w.Header().Set("Cache-Control", "no-cache") // kept, and asked for again each time
		w.Header().Set("Content-Type", "text/calendar; charset=utf-8")
		w.Header().Set("Content-Disposition", `inline; filename="`+id+calendarEnding+`"`)
		http.ServeContent(w, r, "", time.Time{}, strings.NewReader(found.GetIcs()))
	}
}

// httpStatus is the status that google.rpc.Code gives a code.
func httpStatus(code codes.Code) int {
	switch code {
	case codes.NotFound:
		return http.StatusNotFound
	case codes.InvalidArgument, codes.FailedPrecondition, codes.OutOfRange:
		return http.StatusBadRequest
	case codes.ResourceExhausted:
		return http.StatusTooManyRequests
	case codes.Unavailable:
		return http.StatusServiceUnavailable
	case codes.DeadlineExceeded:
		return http.StatusGatewayTimeout
	}
	return http.StatusInternalServerError
}
