package access

import (
	"context"
	"encoding/json"
	"net"
	"net/http"
	"net/netip"
	"path"
	"strings"
)

// cookie carries the key of a browser. By its name browsers take it over TLS, from this host and for all of it alone (RFC 6265bis,
// section 4.1.3.2).
const cookie = "__Host-glossladder"

type callerKey struct{}

// ConnContext is for [http.Server]: it keeps who is at the other end of a connection.
func (g *Gate) ConnContext(ctx context.Context, conn net.Conn) context.Context {
	return context.WithValue(ctx, callerKey{}, conn.RemoteAddr())
}

// Handler lets through to next whoever may. A key goes no further than here.
func (g *Gate) Handler(next http.Handler) http.Handler {
	pairing := g.pairing()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		from, ok := r.Context().Value(callerKey{}).(caller)
		switch {
		case !ok:
			refuse(w, http.StatusForbidden, 7, "a caller without an address is not answered")
		case !g.OwnHost(r):
			refuse(w, http.StatusMisdirectedRequest, 3, "this is no name of the service's machine")
		case from.here() && isPairing(r.URL.Path):
			http.Redirect(w, r, "/", http.StatusSeeOther) // this machine needs no key
		case from.here():
			next.ServeHTTP(w, withoutKey(r))
		case !from.private():
			toTLS(w, r)
		case g.cross.Check(r) != nil:
			refuse(w, http.StatusForbidden, 7, "a page of another site may not call this service")
		case isPairing(r.URL.Path):
			pairing.ServeHTTP(w, r)
		default:
			g.keyed(w, r, next)
		}
	})
}

// keyed is for callers from other machines.
func (g *Gate) keyed(w http.ResponseWriter, r *http.Request, next http.Handler) {
	for _, open := range g.open {
		if strings.HasPrefix(r.URL.Path, open) && path.Clean(r.URL.Path) == r.URL.Path { // no way around by /../
			next.ServeHTTP(w, withoutKey(r))
			return
		}
	}
	if ctx, ok := g.admit(r.Context(), keyIn(r)); ok {
		w.Header().Set("Vary", "Authorization, Cookie")
		next.ServeHTTP(w, withoutKey(r).WithContext(ctx))
		return
	}
	w.Header().Set("Cache-Control", "no-store")
	if asksForPage(r) {
		http.Redirect(w, r, pairPath, http.StatusSeeOther)
		return
	}
	w.Header().Set("WWW-Authenticate", `Bearer realm="glossladder"`)
	refuse(w, http.StatusUnauthorized, 16, unpaired)
}

// keyIn is the key that a request brings: in its header, or in the cookie of a browser.
func keyIn(r *http.Request) string {
	if said := r.Header.Values("Authorization"); len(said) > 0 {
		return bearer(said)
	}
	if c, err := r.Cookie(cookie); err == nil {
		return c.Value
	}
	return ""
}

// withoutKey takes the key out of a request, so that nothing behind can tell it to anybody.
func withoutKey(r *http.Request) *http.Request {
	if r.Header.Get("Authorization") == "" && r.Header.Get("Cookie") == "" {
		return r
	}
	r = r.Clone(r.Context())
	r.Header.Del("Authorization")
	r.Header.Del("Cookie")
	return r
}

// asksForPage tells somebody who opens a page from a program that calls.
func asksForPage(r *http.Request) bool {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		return false
	}
	if mode := r.Header.Get("Sec-Fetch-Mode"); mode != "" {
		return mode == "navigate"
	}
	return strings.Contains(r.Header.Get("Accept"), "text/html")
}

// toTLS sends somebody who typed the address on to the protected page, without what stood behind the path. Programs are refused:
// if they brought a key, it has been sent for all to see.
func toTLS(w http.ResponseWriter, r *http.Request) {
	if asksForPage(r) {
		http.Redirect(w, r, "https://"+r.Host+pairPath, http.StatusTemporaryRedirect)
		return
	}
	w.Header().Set("Connection", "close")
	refuse(w, http.StatusForbidden, 7, "from another machine, call over https; revoke a key that was sent without it")
}

// OwnHost says whether a request names this machine as its caller may: from other machines by every name that the certificate
// has, on the machine itself by loopback names alone, since a local network lets anybody claim its other names. Whatever else
// stands there was made up by somebody else.
func (g *Gate) OwnHost(r *http.Request) bool {
	name, _, err := net.SplitHostPort(r.Host)
	if err != nil {
		name = strings.TrimSuffix(strings.TrimPrefix(r.Host, "["), "]")
	}
	from, ok := r.Context().Value(callerKey{}).(caller)
	if !ok || from.here() {
		ip, err := netip.ParseAddr(name)
		return name == "localhost" || err == nil && ip.IsLoopback()
	}
	c, err := g.certs.good(loopback)
	return err == nil && name != "" && c.Leaf.VerifyHostname(name) == nil
}

// refuse answers as all errors over HTTP are told; code is that of google.rpc.
func refuse(w http.ResponseWriter, httpStatus, code int, says string) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("X-Content-Type-Options", "nosniff")
	w.WriteHeader(httpStatus)
	_ = json.NewEncoder(w).Encode(struct {
		Code    int      `json:"code"`
		Message string   `json:"message"`
		Details []string `json:"details"`
	}{code, says, []string{}})
}
