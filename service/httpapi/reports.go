package httpapi

import (
	"context"
	"net/http"
	"net/url"
	"strings"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Reports are where the pages of reports come from.
type Reports struct {
	// Client is asked for the report of a job, at /reports/ and the job's id.
	Client glossladderv1.ReportServiceClient
	// Shared gives the report that a link's token leads to, at /r/ and the token; an error of NOT_FOUND if it leads to none.
	Shared func(ctx context.Context, token string) (*glossladderv1.Report, error)
}

// noLink is what somebody reads who follows a link that leads nowhere. Whether it ever did is not told.
const noLink = "This link leads to no report. Its time may be over; please ask the shop for a new one.\n\n" +
	"Dieser Link führt zu keinem Protokoll. Vielleicht ist er abgelaufen; bitte fragen Sie die Werkstatt nach einem neuen.\n"

// serveReports adds the pages of reports: for the shop by the job's id, for others by the token of a link.
func serveReports(paths *http.ServeMux, from *Reports) {
	paths.HandleFunc("GET /reports/{job}", func(w http.ResponseWriter, r *http.Request) {
		req, bad := reportRequest(r.PathValue("job"), r.URL.Query())
		if bad != "" {
			writeError(w, http.StatusBadRequest, bad)
			return
		}
		found, err := from.Client.GetReport(r.Context(), req)
		if err != nil {
			st := status.Convert(err)
			writeStatus(w, httpStatus(st.Code()), st.Proto())
			return
		}
		sendReport(w, found)
	})
	paths.HandleFunc("GET /r/{token}", func(w http.ResponseWriter, r *http.Request) {
		found, err := from.Shared(r.Context(), r.PathValue("token"))
		switch code := status.Code(err); {
		case err == nil:
			sendReport(w, found)
		case code == codes.NotFound:
			keepPrivate(w)
			w.Header().Set("Content-Type", "text/plain; charset=utf-8")
			w.WriteHeader(http.StatusNotFound)
			_, _ = w.Write([]byte(noLink))
		default: // whoever has a link is told nothing of what is wrong behind it
			keepPrivate(w)
			writeError(w, httpStatus(code), "the report cannot be shown now; try again later")
		}
	})
}

// reportRequest reads how a report is to be set: locale, format (html, text), paper (a4, letter), heading, time_zone.
func reportRequest(job string, query url.Values) (*glossladderv1.GetReportRequest, string) {
	out := &glossladderv1.GetReportRequest{
		Name: "jobs/" + job, Locale: query.Get("locale"), Heading: query.Get("heading"), TimeZone: query.Get("time_zone"),
	}
	for name := range query {
		switch name {
		case "locale", "heading", "time_zone":
		case "format":
			format, ok := glossladderv1.ReportFormat_value["REPORT_FORMAT_"+strings.ToUpper(query.Get(name))]
			if !ok {
				return nil, "format: it is html or text"
			}
			out.Format = glossladderv1.ReportFormat(format)
		case "paper":
			paper, ok := glossladderv1.PaperSize_value["PAPER_SIZE_"+strings.ToUpper(query.Get(name))]
			if !ok {
				return nil, "paper: it is a4 or letter"
			}
			out.Paper = glossladderv1.PaperSize(paper)
		default:
			return nil, name + ": a report has no such setting; it has format, heading, locale, paper and time_zone"
		}
	}
	return out, ""
}

func sendReport(w http.ResponseWriter, found *glossladderv1.Report) {
	keepPrivate(w)
	w.Header().Set("Content-Type", found.GetMediaType())
	w.Header().Set("Content-Disposition", `inline; filename="`+found.GetFileName()+`"`)
	// The page has styles of its own and nothing else: no script, no image, no form, no frame around it.
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'")
	_, _ = w.Write(found.GetContent())
}

// keepPrivate keeps a page out of caches, search engines, and the logs of sites that somebody goes to from it.
func keepPrivate(w http.ResponseWriter) {
	w.Header().Set("Cache-Control", "private, no-store")
	w.Header().Set("Referrer-Policy", "no-referrer")
	w.Header().Set("X-Robots-Tag", "noindex, nofollow")
}
