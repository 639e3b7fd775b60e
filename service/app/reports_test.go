package app_test

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// reporting is a service that listens, with a job in its record.
func reporting(t *testing.T) (reports v1.ReportServiceClient, address, data string) {
	t.Helper()
	data = filepath.Join(t.TempDir(), "jobs.db")
	service, err := app.New(app.Options{Listen: "127.0.0.1:0", Data: data})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- service.Run(ctx) }()
	t.Cleanup(func() { cancel(); assert.NoError(t, <-ended) })
	connection, err := service.Dial()
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	estate(t, v1.NewJobServiceClient(connection), "spring")
	return v1.NewReportServiceClient(connection), "http://" + service.Addr(), data
}

func fetch(t *testing.T, address string) (*http.Response, string) {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	require.NoError(t, err)
	// Somebody who follows a link out of a message.
	req.Header.Set("Sec-Fetch-Site", "cross-site")
	req.Header.Set("Sec-Fetch-Mode", "navigate")
	answer, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	defer func() { _ = answer.Body.Close() }()
	body, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return answer, string(body)
}

func TestALinkShowsOneReportUntilItIsRevoked(t *testing.T) {
	reports, address, data := reporting(t)
	link, err := reports.CreateReportLink(t.Context(), &v1.CreateReportLinkRequest{Job: "jobs/spring", ReportLink: &v1.ReportLink{Setting: &v1.ReportSetting{Locale: "de", Heading: "<b>"}}})
	require.NoError(t, err)
	token := strings.TrimPrefix(link.GetPath(), "/r/")
	assert.GreaterOrEqual(t, len(token), 26, "130 bits of base 32")
	assert.WithinDuration(t, time.Now().AddDate(0, 0, 30), link.GetExpireTime().AsTime(), time.Minute+2*time.Hour)

	answer, page := fetch(t, address+link.GetPath())
	assert.Equal(t, http.StatusOK, answer.StatusCode)
	assert.Contains(t, page, `<html lang="de">`)
	assert.Contains(t, page, "dark blue estate (invented)")
	assert.Contains(t, page, "&lt;b&gt;")
	assert.Equal(t, "private, no-store", answer.Header.Get("Cache-Control"))
	assert.Equal(t, "no-referrer", answer.Header.Get("Referrer-Policy"))
	assert.Equal(t, "noindex, nofollow", answer.Header.Get("X-Robots-Tag"))
	assert.Contains(t, answer.Header.Get("Content-Security-Policy"), "default-src 'none'")

	listed, err := reports.ListReportLinks(t.Context(), &v1.ListReportLinksRequest{Job: "jobs/spring"})
	require.NoError(t, err)
	require.Len(t, listed.GetReportLinks(), 1)
	assert.Empty(t, listed.GetReportLinks()[0].GetPath(), "it is given once")
	for _, file := range []string{data, data + "-wal"} {
		kept, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.NotContains(t, string(kept), token, "the token is kept nowhere")
	}

	_, err = reports.DeleteReportLink(t.Context(), &v1.DeleteReportLinkRequest{Name: link.GetName()})
	require.NoError(t, err)
	revoked, gone := fetch(t, address+link.GetPath())
	never, wrong := fetch(t, address+"/r/aaaaaaaaaaaaaaaaaaaaaaaaaa")
	assert.Equal(t, http.StatusNotFound, revoked.StatusCode)
	assert.Equal(t, http.StatusNotFound, never.StatusCode)
	assert.Equal(t, gone, wrong, "nobody learns whether a link ever was")
	_, err = reports.DeleteReportLink(t.Context(), &v1.DeleteReportLinkRequest{Name: link.GetName()})
	assert.Equal(t, codes.NotFound, status.Code(err))
}

func TestALinkHasAnEndThatCanBe(t *testing.T) {
	reports, _, _ := reporting(t)
	for name, at := range map[string]time.Time{"gone by": time.Now().Add(-time.Minute), "too far": time.Now().AddDate(2, 0, 0)} {
		_, err := reports.CreateReportLink(t.Context(), &v1.CreateReportLinkRequest{Job: "jobs/spring", ReportLink: &v1.ReportLink{ExpireTime: timestamppb.New(at)}})
		assert.Equal(t, codes.InvalidArgument, status.Code(err), name)
		assert.ErrorContains(t, err, "report_link.expire_time", name)
	}
	_, err := reports.CreateReportLink(t.Context(), &v1.CreateReportLinkRequest{Job: "jobs/summer"})
	assert.Equal(t, codes.NotFound, status.Code(err))
}

func TestTheShopSeesAReportAsAPage(t *testing.T) {
	_, address, _ := reporting(t)
	answer, page := fetch(t, address+"/reports/spring?locale=en-US")
	assert.Equal(t, http.StatusOK, answer.StatusCode)
	assert.Contains(t, page, "size: letter")
	answer, text := fetch(t, address+"/reports/spring?format=text&heading=Us")
	assert.Equal(t, "text/plain; charset=utf-8", answer.Header.Get("Content-Type"))
	assert.True(t, strings.HasPrefix(text, "Us\n"), text)
	for path, code := range map[string]int{
		"/reports/summer": http.StatusNotFound, "/reports/spring?locale=fr": http.StatusBadRequest, "/reports/spring?colour=red": http.StatusBadRequest,
		"/reports/spring?format=pdf": http.StatusBadRequest, "/reports/spring?time_zone=Local": http.StatusBadRequest, "/reports/Spring": http.StatusBadRequest,
		"/v1/jobs/spring/report?locale=de": http.StatusOK,
	} {
		answer, _ := fetch(t, address+path)
		assert.Equal(t, code, answer.StatusCode, path)
	}
}
