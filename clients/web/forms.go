package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"
)

// form is one way to send a file. Each has a tag of its own, since a browser that holds one must not be told that it holds another.
type form struct {
	coding string // "" as it is, or as Accept-Encoding names it (RFC 9110, section 8.4.1)
	etag   string
	text   []byte
}

// formsOf returns the ways to send a file, the smallest first and the file as it is last. by is the same file packed by brotli, which
// was done while the page was built; empty: it was not.
func formsOf(text, by []byte) ([]form, error) {
	zipped, err := zip(text)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(text)
	tag := hex.EncodeToString(sum[:16])
	var forms []form
	if len(by) > 0 {
		forms = append(forms, form{coding: "br", etag: strconv.Quote(tag + "-br"), text: by})
	}
	if len(zipped) < len(text) {
		forms = append(forms, form{coding: "gzip", etag: strconv.Quote(tag + "-gzip"), text: zipped})
	}
	return append(forms, form{etag: strconv.Quote(tag), text: text}), nil
}

func zip(text []byte) ([]byte, error) {
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(text); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return packed.Bytes(), nil
}

// choose returns the first form that whoever asks can read; everybody can read the last.
func choose(forms []form, r *http.Request) form {
	for _, f := range forms {
		if f.coding == "" || takes(r, f.coding) {
			return f
		}
	}
	return form{}
}

// takes says whether a coding is among those that a request names; one with the weight 0 is named to be left out.
func takes(r *http.Request, coding string) bool {
	for part := range strings.SplitSeq(r.Header.Get("Accept-Encoding"), ",") {
		name, weight, _ := strings.Cut(part, ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		value, isWeighed := strings.CutPrefix(strings.TrimSpace(weight), "q=")
		q, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		return !isWeighed || err != nil || q > 0
	}
	return false
}
