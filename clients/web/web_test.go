package web_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/clients/web"
)

func overTeapot(t *testing.T) http.Handler {
	t.Helper()
	handler, err := web.Over(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusTeapot) }))
	require.NoError(t, err)
	return handler
}

func ask(handler http.Handler, method, path string, header ...string) *http.Response {
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	handler.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, resp *http.Response) string {
	t.Helper()
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	return string(text)
}

func TestEveryFileThatThePageNamesIsServed(t *testing.T) {
	handler := overTeapot(t)
	front := ask(handler, "GET", "/")
	require.Equal(t, http.StatusOK, front.StatusCode)
	assert.Equal(t, "text/html; charset=utf-8", front.Header.Get("Content-Type"))
	names := regexp.MustCompile(`(?:src|href)="(/[^"]*)"`).FindAllStringSubmatch(body(t, front), -1)
	require.GreaterOrEqual(t, len(names), 4, "script, style, icon and manifest")
	for _, name := range names {
		resp := ask(handler, "GET", name[1])
		assert.Equal(t, http.StatusOK, resp.StatusCode, name[1])
		assert.NotEqual(t, "application/octet-stream", resp.Header.Get("Content-Type"), name[1])
	}
}

func TestPageMayOnlyLoadItself(t *testing.T) {
	policy := ask(overTeapot(t), "GET", "/").Header.Get("Content-Security-Policy")
	assert.Contains(t, policy, "default-src 'none'")
	assert.NotContains(t, policy, "unsafe")
	assert.NotContains(t, policy, "http")
}

func TestFilesThatChangeAreAskedForAgain(t *testing.T) {
	handler := overTeapot(t)
	for _, path := range []string{"/", "/index.html", "/sw.js", "/manifest.webmanifest"} {
		first := ask(handler, "GET", path)
		require.Equal(t, http.StatusOK, first.StatusCode, path)
		assert.Equal(t, "no-cache", first.Header.Get("Cache-Control"), path)
		again := ask(handler, "GET", path, "If-None-Match", first.Header.Get("ETag"))
		assert.Equal(t, http.StatusNotModified, again.StatusCode, path)
		assert.Empty(t, body(t, again), path)
	}
	script := regexp.MustCompile(`/assets/[^"]+\.js`).FindString(body(t, ask(handler, "GET", "/")))
	assert.Contains(t, ask(handler, "GET", script).Header.Get("Cache-Control"), "immutable", script)
}

func TestFilesArePackedForThoseWhoTakeIt(t *testing.T) {
	handler := overTeapot(t)
	plain := ask(handler, "GET", "/sw.js")
	packed := ask(handler, "GET", "/sw.js", "Accept-Encoding", "br, gzip;q=0.8")
	require.Equal(t, "gzip", packed.Header.Get("Content-Encoding"))
	assert.NotEqual(t, plain.Header.Get("ETag"), packed.Header.Get("ETag"), "one tag stands for one form")
	z, err := gzip.NewReader(packed.Body)
	require.NoError(t, err)
	text, err := io.ReadAll(z)
	require.NoError(t, err)
	assert.Equal(t, body(t, plain), string(text))
	assert.Empty(t, ask(handler, "GET", "/sw.js", "Accept-Encoding", "gzip;q=0").Header.Get("Content-Encoding"))
}

func TestWhateverIsNoFileIsForTheService(t *testing.T) {
	handler := overTeapot(t)
	for _, call := range []string{"GET /v1/facts", "POST /", "POST /glossladder.v1.JobService/ListJobs", "GET /healthz", "GET /assets/none.js"} {
		method, path, _ := strings.Cut(call, " ")
		assert.Equal(t, http.StatusTeapot, ask(handler, method, path).StatusCode, call)
	}
}

func TestHeadSaysWhatGetWouldSend(t *testing.T) {
	resp := ask(overTeapot(t), "HEAD", "/")
	assert.Equal(t, http.StatusOK, resp.StatusCode)
	assert.NotEmpty(t, resp.Header.Get("Content-Length"))
	assert.Empty(t, body(t, resp))
}
