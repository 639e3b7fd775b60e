package webhook

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"net/url"
	"syscall"
)

// ErrTarget means that an address must not be sent to.
var ErrTarget = errors.New("not a target for webhooks")

// CheckURL returns an [ErrTarget] unless events may be sent to a URL: https, or http where private targets are allowed, with
// a host and without a user in it. Where its name leads is looked at when sending, since that can change.
func CheckURL(text string, allowPrivate bool) error {
	u, err := url.Parse(text)
	switch {
	case err != nil:
		return fmt.Errorf("%q is no URL: %w", text, ErrTarget)
	case u.Scheme != "https" && !(u.Scheme == "http" && allowPrivate):
		return fmt.Errorf("%q does not begin with https://; http is for a system in your own network, where private targets are allowed: %w", text, ErrTarget)
	case u.Hostname() == "":
		return fmt.Errorf("%q has no host: %w", text, ErrTarget)
	case u.User != nil:
		return fmt.Errorf("a URL with a user or password in it is %w; use the signature to know the sender", ErrTarget)
	case u.Fragment != "":
		return fmt.Errorf("%q has a part behind #, which is never sent: %w", text, ErrTarget)
	}
	if addr, err := netip.ParseAddr(u.Hostname()); err == nil && !allowPrivate && !public(addr) {
		return fmt.Errorf("%s is a private or local address, %w; allow private targets for a system in your own network", addr, ErrTarget)
	}
	return nil
}

// shared are ranges beside those that netip knows by name: carrier-grade translation (RFC 6598), documentation (RFC 5737,
// 3849), benchmarks (RFC 2544), this network (RFC 791), reserved (RFC 1112), and IPv6 that carries an IPv4 address inside (RFC
// 6052, 3056, 4380), through which a private one could be reached.
var shared = []netip.Prefix{
	netip.MustParsePrefix("0.0.0.0/8"), netip.MustParsePrefix("100.64.0.0/10"), netip.MustParsePrefix("192.0.0.0/24"),
	netip.MustParsePrefix("192.0.2.0/24"), netip.MustParsePrefix("198.18.0.0/15"), netip.MustParsePrefix("198.51.100.0/24"),
	netip.MustParsePrefix("203.0.113.0/24"), netip.MustParsePrefix("240.0.0.0/4"), netip.MustParsePrefix("64:ff9b::/96"),
	netip.MustParsePrefix("64:ff9b:1::/48"), netip.MustParsePrefix("2002::/16"), netip.MustParsePrefix("2001::/32"),
	netip.MustParsePrefix("2001:db8::/32"), netip.MustParsePrefix("::/96"),
}

// public says whether an address is one of the open network.
func public(addr netip.Addr) bool {
	addr = addr.Unmap().WithZone("")
	if !addr.IsGlobalUnicast() || addr.IsPrivate() {
		return false
	}
	for _, p := range shared {
		if p.Contains(addr) {
			return false
		}
	}
	return true
}

// guard refuses a connection by the address it really goes to, after the name was looked up: a name may lead anywhere, and
// elsewhere the next time.
func guard(allowPrivate bool) func(network, address string, _ syscall.RawConn) error {
	return func(_, address string, _ syscall.RawConn) error {
		if allowPrivate {
			return nil
		}
		host, _, err := net.SplitHostPort(address)
		if err != nil {
			return fmt.Errorf("%s: %w", address, ErrTarget)
		}
		addr, err := netip.ParseAddr(host)
		if err != nil || !public(addr) {
			return fmt.Errorf("%s is a private or local address, %w", host, ErrTarget)
		}
		return nil
	}
}
