package httpapi_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The headers are those that browsers send: Fetch Metadata (W3C) and Origin (RFC 6454).
func TestPagesOfOtherSitesAreRefused(t *testing.T) {
	address := serve(t)
	_, port, _ := strings.Cut(address, ":")
	for name, row := range map[string]struct {
		method  string
		headers []string
		status  int
	}{
		"no browser":                                {"POST", nil, 200},
		"a page of the service itself":              {"POST", []string{"Sec-Fetch-Site", "same-origin"}, 200},
		"the same, of a browser that says less":     {"POST", []string{"Origin", "http://" + address}, 200},
		"a page of another site":                    {"POST", []string{"Sec-Fetch-Site", "cross-site"}, 403},
		"another port of this machine":              {"POST", []string{"Sec-Fetch-Site", "same-site"}, 403},
		"another site, of a browser that says less": {"POST", []string{"Origin", "http://elsewhere.example"}, 403},
		"a sandboxed page":                          {"POST", []string{"Origin", "null"}, 403},
		"another site reads":                        {"GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors"}, 403},
		"somebody follows a link":                   {"GET", []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}, 200},
		"somebody types the address":                {"GET", []string{"Sec-Fetch-Site", "none", "Sec-Fetch-Mode", "navigate"}, 200},
		"a foreign name for this machine":           {"GET", []string{"Host", "elsewhere.example"}, 421},
		"a foreign name that begins well":           {"GET", []string{"Host", "127.0.0.1.elsewhere.example:" + port}, 421},
		"another address":                           {"GET", []string{"Host", "192.0.2.1:" + port}, 421},
		"localhost":                                 {"GET", []string{"Host", "localhost:" + port}, 200},
		"localhost without a port":                  {"GET", []string{"Host", "localhost"}, 200},
		"IPv6":                                      {"GET", []string{"Host", "[::1]:" + port}, 200},
	} {
		t.Run(name, func(t *testing.T) {
			path, body := "/v1/facts?prefix=film.usable", ""
			if row.method == http.MethodPost {
				path, body = "/v1:recommend", `{"inspection": `+inspection+`}`
			}
			got := call(t, row.method, "http://"+address+path, body, row.headers...)
			assert.Equal(t, row.status, got.status, string(got.text))
			assert.NotEmpty(t, got.json(t))
			assert.Equal(t, "same-origin", got.header.Get("Cross-Origin-Resource-Policy"))
			assert.Equal(t, "nosniff", got.header.Get("X-Content-Type-Options"))
			assert.Empty(t, got.header.Get("Access-Control-Allow-Origin"))
		})
	}
	t.Run("a browser asks before it sends", func(t *testing.T) {
		got := call(t, http.MethodOptions, "http://"+address+"/v1:recommend", "", "Origin", "http://elsewhere.example",
			"Access-Control-Request-Method", "POST", "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "cors")
		assert.Equal(t, http.StatusForbidden, got.status)
		assert.Empty(t, got.header.Get("Access-Control-Allow-Origin"))
	})
}

func TestHealthOverHTTPIsThatOfGRPC(t *testing.T) {
	base := "http://" + serve(t)
	for query, want := range map[string]int{"": 200, "?service=glossladder.v1.AdvisorService": 200, "?service=glossladder.rules": 200, "?service=none-such": 404} {
		got := call(t, http.MethodGet, base+"/healthz"+query, "")
		assert.Equal(t, want, got.status, query)
		if want == http.StatusOK {
			assert.Equal(t, "SERVING", got.json(t)["status"], query)
		}
	}
}
