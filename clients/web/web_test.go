package web_test

import (
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
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
	names := regexp.MustCompile(`href="(/[^"]*)"`).FindAllStringSubmatch(body(t, front), -1)
	require.NotEmpty(t, names, "the manifest; the icon follows once the page can be used")
	names = append(names, keptOnTheDevice(t, handler)...)
	for _, name := range names {
		resp := ask(handler, "GET", name[1])
		assert.Equal(t, http.StatusOK, resp.StatusCode, name[1])
		assert.NotEqual(t, "application/octet-stream", resp.Header.Get("Content-Type"), name[1])
	}
}

// keptOnTheDevice are the files that the service worker keeps: each in quotes, and without them.
func keptOnTheDevice(t *testing.T, handler http.Handler) [][]string {
	t.Helper()
	names := regexp.MustCompile(`"(/[^"]*)"`).FindAllStringSubmatch(body(t, ask(handler, "GET", "/sw.js")), -1)
	require.Greater(t, len(names), 10)
	return names
}

func TestPageMayOnlyLoadItself(t *testing.T) {
	policy := ask(overTeapot(t), "GET", "/").Header.Get("Content-Security-Policy")
	assert.Contains(t, policy, "default-src 'none'")
	assert.NotContains(t, policy, "unsafe")
	assert.NotContains(t, policy, "http")
}

func TestWhatIsBuiltIntoThePageMayRun(t *testing.T) {
	front := ask(overTeapot(t), "GET", "/")
	policy := front.Header.Get("Content-Security-Policy")
	scripts, styles, _ := strings.Cut(policy, "; style-src ")
	inside := regexp.MustCompile(`(?s)<(script|style)[^>]*>(.*?)</(?:script|style)>`).FindAllStringSubmatch(body(t, front), -1)
	require.Len(t, inside, 4, "what is asked first, the style, what begins, and the script")
	for _, piece := range inside {
		sum := sha256.Sum256([]byte(piece[2]))
		source := "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
		assert.Equal(t, piece[1] == "script", strings.Contains(scripts, source), source)
		assert.Equal(t, piece[1] == "style", strings.Contains(styles, source), source)
	}
	assert.Equal(t, 4, strings.Count(policy, "sha256-"))
	assert.NotContains(t, ask(overTeapot(t), "GET", "/sw.js").Header.Get("Content-Security-Policy"), "sha256-")
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
	script := regexp.MustCompile(`/assets/[^"]+\.js`).FindString(body(t, ask(handler, "GET", "/sw.js")))
	assert.Contains(t, ask(handler, "GET", script).Header.Get("Cache-Control"), "immutable", script)
}

func TestFilesArePackedForThoseWhoTakeIt(t *testing.T) {
	handler := overTeapot(t)
	for _, c := range []struct{ takes, coding string }{
		{"", ""},
		{"identity", ""},
		{"gzip", "gzip"},
		{"gzip, deflate, br, zstd", "br"},
		{"br;q=0.1, gzip;q=0.8", "br"}, // the smaller of those that are taken
		{"GZIP;q=0.001", "gzip"},
		{"br; q=0, gzip", "gzip"},
		{"br;q=0.0, gzip;q=0", ""},
		{"brotli", ""},
	} {
		resp := ask(handler, "GET", "/", "Accept-Encoding", c.takes)
		assert.Equal(t, c.coding, resp.Header.Get("Content-Encoding"), c.takes)
		assert.Equal(t, "Accept-Encoding", resp.Header.Get("Vary"), "what stands between must not give one form to all")
	}
}

func TestOneTagStandsForOneForm(t *testing.T) {
	handler := overTeapot(t)
	tags := map[string]bool{}
	for _, takes := range []string{"", "gzip", "br"} {
		tag := ask(handler, "GET", "/", "Accept-Encoding", takes).Header.Get("ETag")
		assert.False(t, tags[tag], tag)
		tags[tag] = true
		again := ask(handler, "GET", "/", "Accept-Encoding", takes, "If-None-Match", tag)
		assert.Equal(t, http.StatusNotModified, again.StatusCode, takes)
	}
	assert.Len(t, tags, 3)
}

func TestZippedFilesHoldWhatThePlainOnesDo(t *testing.T) {
	handler := overTeapot(t)
	z, err := gzip.NewReader(ask(handler, "GET", "/sw.js", "Accept-Encoding", "gzip").Body)
	require.NoError(t, err)
	text, err := io.ReadAll(z)
	require.NoError(t, err)
	assert.Equal(t, body(t, ask(handler, "GET", "/sw.js")), string(text))
}

func TestPackedFilesAreNoPagesOfTheirOwn(t *testing.T) {
	assert.Equal(t, http.StatusTeapot, ask(overTeapot(t), "GET", "/index.html.br").StatusCode)
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
