package access

import (
	"embed"
	"errors"
	"fmt"
	"html/template"
	"log/slog"
	"net/http"
	"strconv"
	"strings"
	"time"
)

//go:embed page
var page embed.FS

// pairPath is where a code is traded for a key.
const pairPath = "/pair"

// cookieTime is as long as browsers keep one (RFC 6265bis, section 5.5: 400 days). The key itself is good until it is revoked.
const cookieTime = 400 * 24 * time.Hour

// longestForm is more than a code and a name need, in bytes.
const longestForm = 4 << 10

// policy of the page: it loads its own two files, sends its form to the service, and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

var pairPage = template.Must(template.ParseFS(page, "page/pair.html"))

// isPairing says whether a path is part of the pairing page.
func isPairing(path string) bool { return path == pairPath || strings.HasPrefix(path, pairPath+"/") }

// pairing is the page and what it needs. It is all that a stranger can reach.
func (g *Gate) pairing() http.Handler {
	paths := http.NewServeMux()
	paths.HandleFunc("GET /pair", func(w http.ResponseWriter, r *http.Request) {
		if _, ok := g.admit(r.Context(), keyIn(r)); ok {
			http.Redirect(w, r, "/", http.StatusSeeOther)
			return
		}
		g.showPage(w, r, http.StatusOK, shown{})
	})
	paths.HandleFunc("POST /pair", g.trade)
	paths.HandleFunc("GET /pair/pair.css", file("page/pair.css", "text/css; charset=utf-8"))
	paths.HandleFunc("GET /pair/pair.js", file("page/pair.js", "text/javascript; charset=utf-8"))
	paths.HandleFunc("GET /pair/certificate.crt", g.sendCertificate)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Cache-Control", "no-store")
		h.Set("Content-Security-Policy", policy)
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Referrer-Policy", "same-origin") // with less, some browsers send the form without saying where it comes from
		h.Set("X-Content-Type-Options", "nosniff")
		paths.ServeHTTP(w, r)
	})
}

// shown is what the page says.
type shown struct {
	Words       pairWords
	Name        string
	Problem     string
	Fingerprint string
}

func (g *Gate) showPage(w http.ResponseWriter, r *http.Request, status int, says shown) {
	says.Words = wordsFor(r)
	says.Fingerprint, _ = g.Fingerprint() // the connection itself would not be there without a certificate
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Language", says.Words.Lang)
	w.Header().Set("Vary", "Accept-Language")
	w.WriteHeader(status)
	if err := pairPage.Execute(w, says); err != nil {
		g.log.Warn("pairing page", slog.String("error", err.Error()))
	}
}

// trade gives a browser a key for a code.
func (g *Gate) trade(w http.ResponseWriter, r *http.Request) {
	from, _ := r.Context().Value(callerKey{}).(caller)
	if wait, ok := g.tries.allow(from.ip(), g.now()); !ok {
		seconds := int(wait/time.Second) + 1
		w.Header().Set("Retry-After", strconv.Itoa(seconds))
		g.log.Warn("pairing held back", slog.String("from", from.ip().String()))
		g.showPage(w, r, http.StatusTooManyRequests, shown{Problem: fmt.Sprintf(wordsFor(r).tooMany, seconds)})
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, longestForm)
	if err := r.ParseForm(); err != nil {
		g.showPage(w, r, http.StatusBadRequest, shown{Problem: wordsFor(r).unreadable})
		return
	}
	typed := strings.TrimSpace(r.PostForm.Get("name"))
	name := typed
	if name == "" {
		name = "browser of " + from.ip().String()
	}
	key, said, err := g.folder.Pair(r.Context(), r.PostForm.Get("code"), name, g.now())
	switch {
	case errors.Is(err, ErrWrongCode):
		g.log.Warn("pairing refused", slog.String("from", from.ip().String()))
		g.showPage(w, r, http.StatusForbidden, shown{Name: typed, Problem: wordsFor(r).refusal(err)})
	case err != nil:
		g.log.Warn("pairing failed", slog.String("error", err.Error()))
		g.showPage(w, r, http.StatusBadRequest, shown{Name: typed, Problem: wordsFor(r).refusal(err)})
	default:
		g.reload()
		g.log.Info("paired", slog.String("id", key.ID), slog.String("name", key.Name), slog.String("from", from.ip().String()))
		http.SetCookie(w, &http.Cookie{
			Name: cookie, Value: said, Path: "/", MaxAge: int(cookieTime / time.Second),
			Secure: true, HttpOnly: true, SameSite: http.SameSiteStrictMode,
		})
		http.Redirect(w, r, "/", http.StatusSeeOther)
	}
}

// sendCertificate is for those who want their phone to trust the service for good.
func (g *Gate) sendCertificate(w http.ResponseWriter, _ *http.Request) {
	c, err := g.certs.good(loopback)
	if err != nil {
		refuse(w, http.StatusInternalServerError, 13, "internal error")
		return
	}
	w.Header().Set("Content-Type", "application/x-x509-ca-cert")
	w.Header().Set("Content-Disposition", `attachment; filename="glossladder.crt"`)
	_, _ = w.Write(c.Certificate[0])
}

func file(name, media string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		text, err := page.ReadFile(name)
		if err != nil {
			refuse(w, http.StatusNotFound, 5, "there is nothing here")
			return
		}
		w.Header().Set("Content-Type", media)
		_, _ = w.Write(text)
	}
}

func wordsFor(r *http.Request) pairWords { return pairIn(r.Header.Get("Accept-Language")) }
