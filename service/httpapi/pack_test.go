package httpapi_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLongAnswersArePackedForThoseWhoTakeIt(t *testing.T) {
	url := serve(t)
	const facts = "/glossladder.v1.AdvisorService/ListFacts"
	plain := call(t, http.MethodPost, "http://"+url+facts, "{}", "Accept-Encoding", "identity")
	require.Equal(t, http.StatusOK, plain.status)
	assert.Empty(t, plain.header.Get("Content-Encoding"))

	for _, path := range []string{facts, "/v1/facts"} {
		method, body := http.MethodPost, "{}"
		if path == "/v1/facts" {
			method, body = http.MethodGet, ""
		}
		small := call(t, method, "http://"+url+path, body, "Accept-Encoding", "gzip")
		require.Equal(t, http.StatusOK, small.status, path)
		require.Equal(t, "gzip", small.header.Get("Content-Encoding"), path)
		assert.Contains(t, small.header.Values("Vary"), "Accept-Encoding", path)
		assert.Less(t, len(small.text)*4, len(plain.text), path)
		unpacked, err := gzip.NewReader(bytes.NewReader(small.text))
		require.NoError(t, err, path)
		text, err := io.ReadAll(unpacked)
		require.NoError(t, err, path)
		assert.JSONEq(t, string(plain.text), string(text), path)
	}

	short := call(t, http.MethodPost, "http://"+url+"/glossladder.v1.JobService/ListJobs", "{}", "Accept-Encoding", "gzip")
	require.Equal(t, http.StatusOK, short.status)
	assert.Empty(t, short.header.Get("Content-Encoding"), "what fits in one packet is sent as it is")
}
