package httpapi

import (
	"fmt"
	"net"
	"net/http"
)

// sameOrigin keeps other web sites away. The service asks no caller on this machine for a key, and a browser that was paired shows
// its own by itself, so whatever a page of another site could send
// through the browser of somebody on this machine would be obeyed.
func sameOrigin(next http.Handler, own func(*http.Request) bool) http.Handler {
	if own == nil {
		own = func(r *http.Request) bool { return onThisMachine(r.Host) }
	}
	protection := http.NewCrossOriginProtection()
	protection.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		writeError(w, http.StatusForbidden, "a page of another site may not call this service")
	}))
	changes := protection.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cross-Origin-Resource-Policy", "same-origin")
		w.Header().Set("X-Content-Type-Options", "nosniff")
		switch {
		case !own(r):
			// A name that somebody else gives to this machine's address makes his page the same origin as the service.
			writeError(w, http.StatusMisdirectedRequest, fmt.Sprintf(
				"%q is no name of this machine's own; call it localhost or 127.0.0.1, and let a proxy in front do so", r.Host))
		case readsFromElsewhere(r):
			writeError(w, http.StatusForbidden, "a page of another site may not read from this service")
		default:
			changes.ServeHTTP(w, r)
		}
	})
}

// readsFromElsewhere reports a request that a page of another origin makes by itself. Somebody who follows a link is welcome.
func readsFromElsewhere(r *http.Request) bool {
	site := r.Header.Get("Sec-Fetch-Site")
	return (site == "cross-site" || site == "same-site") && r.Header.Get("Sec-Fetch-Mode") != "navigate"
}

// onThisMachine reports whether a Host header names the loopback interface.
func onThisMachine(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	if len(name) > 2 && name[0] == '[' && name[len(name)-1] == ']' {
		name = name[1 : len(name)-1]
	}
	ip := net.ParseIP(name)
	return name == "localhost" || ip != nil && ip.IsLoopback()
}
