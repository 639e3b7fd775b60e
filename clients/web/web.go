// Package web is the page in a browser: files that were built from the TypeScript beside this file, and the handler that serves
// them. The page calls the same API as everybody else and decides nothing. Building it needs Node (see DEVELOPERS.md); running it
// does not, since the built files are part of the program.
package web

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
)

//go:embed dist
var built embed.FS

// page is one file as it is sent.
type page struct {
	media  string
	cache  string
	policy string
	forms  []form
}

// Over serves the page, and hands whatever is no file of the page to api.
func Over(api http.Handler) (http.Handler, error) {
	pages, err := readPages()
	if err != nil {
		return nil, fmt.Errorf("prepare the page: %w", err)
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if p, ok := pages[r.URL.Path]; ok && (r.Method == http.MethodGet || r.Method == http.MethodHead) {
			p.send(w, r)
			return
		}
		api.ServeHTTP(w, r)
	}), nil
}

// readPages returns each file by the path it is asked for.
func readPages() (map[string]page, error) {
	pages := map[string]page{}
	root, err := fs.Sub(built, "dist")
	if err != nil {
		return nil, err
	}
	err = fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if path.Ext(name) == packed {
			return nil // it comes with the file that it holds
		}
		p, err := readPage(root, name)
		if err != nil {
			return err
		}
		pages["/"+name] = p
		return nil
	})
	if err != nil {
		return nil, err
	}
	pages["/"] = pages["/index.html"]
	return pages, nil
}

// packed is what the name of a file ends with that holds another one packed by brotli.
const packed = ".br"

func readPage(root fs.FS, name string) (page, error) {
	text, err := fs.ReadFile(root, name)
	if err != nil {
		return page{}, err
	}
	small, err := fs.ReadFile(root, name+packed)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return page{}, err
	}
	forms, err := formsOf(text, small)
	if err != nil {
		return page{}, err
	}
	p := page{media: mediaOf(name), cache: "no-cache", policy: policyFor(text), forms: forms}
	if strings.HasPrefix(name, "assets/") { // their names change with their content
		p.cache = "public, max-age=31536000, immutable"
	}
	return p, nil
}

// mediaOf does not ask the machine, whose tables differ.
func mediaOf(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".svg":
		return "image/svg+xml"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return "application/octet-stream"
}

func (p page) send(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Cache-Control", p.cache)
	h.Set("Content-Security-Policy", p.policy)
	h.Set("Content-Type", p.media)
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Vary", "Accept-Encoding")
	h.Set("X-Content-Type-Options", "nosniff")
	chosen := choose(p.forms, r)
	if chosen.coding != "" {
		h.Set("Content-Encoding", chosen.coding)
	}
	h.Set("ETag", chosen.etag)
	if r.Header.Get("If-None-Match") == chosen.etag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	h.Set("Content-Length", strconv.Itoa(len(chosen.text)))
	w.WriteHeader(http.StatusOK)
	if r.Method == http.MethodGet {
		_, _ = w.Write(chosen.text)
	}
}
