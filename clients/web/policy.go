package web

import (
	"crypto/sha256"
	"encoding/base64"
	"regexp"
	"strings"
)

// policyFor lets a page load its own files, run what was built into it, call its own service, and nothing else (Content Security
// Policy Level 3). What is built in is allowed by its hash, so that nothing which got into the page later runs.
func policyFor(text []byte) string {
	return "default-src 'none'; script-src 'self'" + hashes(inlineScript, text) + "; style-src 'self'" + hashes(inlineStyle, text) +
		"; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; " +
		"frame-ancestors 'none'"
}

var (
	inlineScript = regexp.MustCompile(`(?s)<script(?: type="module")?>(.*?)</script>`)
	inlineStyle  = regexp.MustCompile(`(?s)<style>(.*?)</style>`)
)

// hashes are the sources of the policy for each piece of text between the tags.
func hashes(tags *regexp.Regexp, text []byte) string {
	var out strings.Builder
	for _, inside := range tags.FindAllSubmatch(text, -1) {
		sum := sha256.Sum256(inside[1])
		out.WriteString(" 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'")
	}
	return out.String()
}
