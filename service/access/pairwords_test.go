package access_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/access"
)

// The wishes are written as RFC 9110 (sections 12.4.2 and 12.5.4) has them: weights from 0 to 1, 0 for "not acceptable".
func TestThePairingPageIsInTheLanguageOfTheBrowser(t *testing.T) {
	r := reach(t, "192.0.2.7", access.Options{})
	client := r.client(t)
	for name, row := range map[string]struct{ wish, lang string }{
		"nothing said":                     {"", "en"},
		"English":                          {"en-GB,en;q=0.9", "en"},
		"German":                           {"de-DE,de;q=0.9,en;q=0.8", "de"},
		"German of Austria":                {"de-AT", "de"},
		"English rather than German":       {"en;q=0.9, de;q=0.8", "en"},
		"German rather than English":       {"en;q=0.5, de;q=0.8", "de"},
		"a language there is none of":      {"fr-FR, fr;q=0.9", "en"},
		"such a one, and German after it":  {"fr-FR, de;q=0.5", "de"},
		"anything but German":              {"de;q=0, *", "en"},
		"no wish that can be read":         {"de;q=high;;", "en"},
		"what would be code in the answer": {"<script>", "en"},
	} {
		t.Run(name, func(t *testing.T) {
			got := send(t, client, http.MethodGet, "https://"+r.address+"/pair", "", "Accept-Language", row.wish)
			assert.Equal(t, http.StatusOK, got.status)
			assert.Equal(t, row.lang, got.header.Get("Content-Language"))
			assert.Equal(t, "Accept-Language", got.header.Get("Vary"))
			assert.Contains(t, got.text, `<html lang="`+row.lang+`">`)
			assert.Contains(t, got.text, map[string]string{"en": "Pair this device", "de": "Dieses Gerät koppeln"}[row.lang])
			assert.NotContains(t, got.text, "<no value>")
			assert.NotContains(t, got.text, "%!")
		})
	}
}

func TestWhatGoesWrongInPairingIsToldInTheSameLanguage(t *testing.T) {
	now := time.Now()
	r := reach(t, "192.0.2.7", access.Options{Now: func() time.Time { return now }})
	problem := regexp.MustCompile(`(?s)role="alert" id="problem">(.*?)</p>`)
	ask := func(form url.Values) (int, string) {
		got := send(t, r.client(t), http.MethodPost, "https://"+r.address+"/pair", form.Encode(), "Accept-Language", "de",
			"Content-Type", "application/x-www-form-urlencoded", "Sec-Fetch-Site", "same-origin", "Sec-Fetch-Mode", "navigate")
		found := problem.FindStringSubmatch(got.text)
		require.Len(t, found, 2, got.text)
		return got.status, found[1]
	}
	for name, row := range map[string]struct {
		form   url.Values
		status int
		says   string
	}{
		"a wrong code":                    {url.Values{"code": {"0000-0000"}}, http.StatusForbidden, "Dieser Code ist falsch"},
		"a name that is too long":         {url.Values{"code": {"0000-0000"}, "name": {strings.Repeat("ä", 61)}}, http.StatusBadRequest, "Der Name hat 61 Zeichen; höchstens 60"},
		"a name that cannot be written":   {url.Values{"code": {"0000-0000"}, "name": {"Box\x07 2"}}, http.StatusBadRequest, "nicht darstellbar"},
		"a form that is not to be a form": {url.Values{"code": {strings.Repeat("0", 5000)}}, http.StatusBadRequest, "nicht lesbar"},
	} {
		status, says := ask(row.form)
		assert.Equal(t, row.status, status, name)
		assert.Contains(t, says, row.says, name)
	}
	_, _ = ask(url.Values{"code": {"0000-0000"}})
	status, says := ask(url.Values{"code": {"0000-0000"}})
	assert.Equal(t, http.StatusTooManyRequests, status)
	assert.Regexp(t, `^Es wurden zu viele Codes versucht\. \d+ Sekunden warten\.$`, says)
}
