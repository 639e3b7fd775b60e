package httpapi_test

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWhatIsWrongWithARequestIsTold(t *testing.T) {
	base := "http://" + serve(t)
	for name, row := range map[string]struct {
		method, path, body string
		headers            []string
		status             int
		says               string // in the message
	}{
		"a parameter that is misspelt":        {"GET", "/v1/facts?prefx=film", "", nil, 400, "prefx: there is no such parameter; the fields of the request are prefix"},
		"a misspelt parameter of a change":    {"DELETE", "/v1/ruleFiles/start.yaml?etag=x&validat_only=true", "", nil, 400, "validat_only: there is no such parameter"},
		"a parameter of a call with a body":   {"POST", "/v1:recommend?inspection=x", "{}", nil, 400, "this call takes everything in its body"},
		"a parameter inside another":          {"GET", "/v1/facts?prefix.x=film", "", nil, 400, "there is no such parameter"},
		"a parameter that has parts":          {"POST", "/v1/jobs?job=x", `{"vehicle": "vehicles/a"}`, nil, 400, "it has parts, and is sent in the body"},
		"a number that is none":               {"GET", "/v1/rules?page_size=x", "", nil, 400, `page_size: "x" is no whole number`},
		"a flag that is none":                 {"DELETE", "/v1/ruleFiles/start.yaml?validate_only=1", "", nil, 400, `validate_only: "1" is neither true nor false`},
		"a word that is none":                 {"GET", "/v1/jobs/a?view=BASIC", "", nil, 400, `view: "BASIC" is none of JOB_VIEW_BASIC, JOB_VIEW_FULL`},
		"a parameter twice":                   {"GET", "/v1/facts?prefix=a&prefix=b", "", nil, 400, "prefix: it is given more than once"},
		"a query that cannot be read":         {"GET", "/v1/facts?prefix=%zz", "", nil, 400, "query: cannot be read"},
		"a bound that is broken in the query": {"GET", "/v1/rules?page_size=5000", "", nil, 400, "page_size: must be greater than or equal to 0 and less than or equal to 1000"},
		"a field that is misspelt":            {"POST", "/v1:recommend", `{"inspektion": {}}`, nil, 400, `the body cannot be read: (line 1:2): unknown field "inspektion"`},
		"half a body":                         {"POST", "/v1:recommend", `{"inspection": `, nil, 400, "the body cannot be read: unexpected"},
		"a list for a body":                   {"POST", "/v1:recommend", `[]`, nil, 400, "the body cannot be read"},
		"a form":                              {"POST", "/v1:recommend", "a=b", []string{"Content-Type", "application/x-www-form-urlencoded"}, 415, "Content-Type: application/json"},
		"plain text, as a form can send":      {"POST", "/v1:recommend", "{}", []string{"Content-Type", "text/plain"}, 415, "Content-Type: application/json"},
		"letters that are not UTF-8":          {"POST", "/v1:recommend", "{}", []string{"Content-Type", "application/json; charset=latin1"}, 415, "UTF-8"},
		"no body where one is needed":         {"POST", "/v1:recommend", "", nil, 400, "inspection"},
		"a path that is not there":            {"GET", "/v1/nothing", "", nil, 404, "there is nothing at GET /v1/nothing"},
		"a method by a wrong name":            {"POST", "/glossladder.v1.AdvisorService/Recomend", "{}", nil, 404, "there is nothing at POST"},
		"a verb that the path does not have":  {"DELETE", "/v1:recommend", "", nil, 405, "method not allowed"},
		"a verb that health does not have":    {"POST", "/healthz", "", nil, 404, "there is nothing at POST /healthz"},
		"a page that is none":                 {"GET", "/nothing.html", "", nil, 404, "there is nothing at GET /nothing.html"},
		"a stream as JSON over HTTP":          {"POST", "/v1/jobs/a:watch", "", nil, 404, "there is nothing at"},
		"more than is taken":                  {"POST", "/v1:recommend", strings.Repeat(" ", 5<<20), nil, 413, "at most 4194304 are taken"},
		"more than is taken, once unpacked":   {"POST", "/v1:recommend", packed(t, 64<<20), []string{"Content-Encoding", "gzip"}, 429, "larger than 4194304 bytes, once unpacked"},
		"the same as Connect":                 {"POST", "/glossladder.v1.AdvisorService/Recommend", packed(t, 64<<20), []string{"Content-Encoding", "gzip"}, 429, "larger than 4194304 bytes, once unpacked"},
		"packed in a way that is not known":   {"POST", "/v1:recommend", "{}", []string{"Content-Encoding", "br"}, 415, "compression not supported"},
	} {
		t.Run(name, func(t *testing.T) {
			got := call(t, row.method, base+row.path, row.body, row.headers...)
			assert.Equal(t, row.status, got.status, string(got.text))
			told := got.json(t)
			assert.Contains(t, told["message"], row.says)
			assert.NotEmpty(t, told["code"])
		})
	}
}

// packed is a body that is small until it is unpacked.
func packed(t *testing.T, size int) string {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	_, err := w.Write(bytes.Repeat([]byte(" "), size))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return out.String()
}

func TestEveryViolationComesAtOnceAsJSON(t *testing.T) {
	got := call(t, http.MethodPost, "http://"+serve(t)+"/v1:recommend", `{"inspection": {"panels": [{"id": "Front Door", "panel_c": 300}]}}`)
	require.Equal(t, http.StatusBadRequest, got.status)
	details := got.json(t)["details"].([]any)
	require.Len(t, details, 1)
	detail := details[0].(map[string]any)
	assert.Equal(t, "type.googleapis.com/google.rpc.BadRequest", detail["@type"])
	found := map[string]any{}
	for _, violation := range detail["field_violations"].([]any) {
		v := violation.(map[string]any)
		found[v["field"].(string)] = v["description"]
	}
	assert.Equal(t, "300 is not allowed: from -40 to 120 °C", found["inspection.panels[0].panel_c"])
	assert.Contains(t, found["inspection.panels[0].id"], `"Front Door" is not allowed`)
	assert.Len(t, found, 2)
}

func TestNamesAreTakenInBothFormsAndGivenInTheContracts(t *testing.T) {
	base := "http://" + serve(t)
	for _, query := range []string{"page_size=1", "pageSize=1"} {
		got := call(t, http.MethodGet, base+"/v1/rules?"+query, "").json(t)
		assert.Len(t, got["rules"], 1, query)
		assert.Contains(t, got, "next_page_token", "fields are named as in the contract")
	}
	made := call(t, http.MethodPost, base+"/v1/vehicles", `{"label": "invented", "builtYear": 2019}`)
	require.Equal(t, http.StatusOK, made.status, string(made.text))
	vehicle := made.json(t)
	assert.InDelta(t, 2019, vehicle["built_year"], 0)
	assert.NotContains(t, vehicle, "paint", "what is not known is not there")
	for _, mask := range []string{"built_year", "builtYear"} {
		changed := call(t, http.MethodPatch, base+"/v1/"+vehicle["name"].(string)+"?update_mask="+mask, `{"label": "not named by the mask", "built_year": 2020}`)
		require.Equal(t, http.StatusOK, changed.status, string(changed.text))
		assert.Equal(t, "invented", changed.json(t)["label"])
		assert.InDelta(t, 2020, changed.json(t)["built_year"], 0)
	}
}

func TestACallThatHasNothingToSayNeedsNoBody(t *testing.T) {
	base := "http://" + serve(t)
	for _, body := range []string{"", "{}"} {
		got := call(t, http.MethodPost, base+"/v1/rules:reload", body)
		require.Equal(t, http.StatusOK, got.status, string(got.text))
		assert.Len(t, got.json(t)["rule_set"], 64)
	}
}
