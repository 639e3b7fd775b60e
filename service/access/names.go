package access

import (
	"cmp"
	"net"
	"net/netip"
	"os"
	"regexp"
	"slices"
	"strings"
)

// loopback is an address that every certificate has.
var loopback = netip.AddrFrom4([4]byte{127, 0, 0, 1})

// names are what this machine is called by those who reach it.
type names struct {
	hosts []string
	ips   []netip.Addr
}

// hostName is what may stand in a certificate (RFC 5280, section 4.2.1.6, and RFC 1034, section 3.5).
var hostName = regexp.MustCompile(`^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*$`)

// ownNames are this machine's as they are now: its name, the same in the local network (RFC 6762), and every address that
// another machine could use.
func ownNames() names {
	out := names{hosts: []string{"localhost"}, ips: []netip.Addr{loopback, netip.IPv6Loopback()}}
	if host, err := os.Hostname(); err == nil && hostName.MatchString(strings.ToLower(host)) {
		host = strings.ToLower(host)
		out.hosts = append(out.hosts, host)
		if !strings.Contains(host, ".") {
			out.hosts = append(out.hosts, host+".local")
		}
	}
	out.ips = append(out.ips, LANAddresses()...)
	slices.Sort(out.hosts)
	out.hosts = slices.Compact(out.hosts)
	return out
}

// with adds an address that a caller used.
func (n names) with(ip netip.Addr) names {
	if !ip.IsValid() || slices.Contains(n.ips, ip) {
		return n
	}
	n.ips = append(slices.Clone(n.ips), ip)
	return n
}

// LANAddresses lists the addresses by which other machines could reach this one, the likeliest first: the one it reaches others
// by itself, then private IPv4 addresses, then the rest. Addresses that are good on one cable only are left out.
func LANAddresses() []netip.Addr {
	found, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var out []netip.Addr
	for _, address := range found {
		prefix, err := netip.ParsePrefix(address.String())
		if err != nil {
			continue
		}
		if ip := prefix.Addr().Unmap(); !ip.IsLoopback() && !ip.IsLinkLocalUnicast() && !ip.IsMulticast() && !ip.IsUnspecified() {
			out = append(out, ip)
		}
	}
	first := outward()
	rank := func(ip netip.Addr) int {
		switch {
		case ip == first:
			return 0
		case ip.Is4() && ip.IsPrivate():
			return 1
		case ip.Is4():
			return 2
		}
		return 3
	}
	slices.SortStableFunc(out, func(a, b netip.Addr) int { return cmp.Compare(rank(a), rank(b)) })
	return slices.Compact(out)
}

// outward is the address that this machine would call others from. Nothing is sent: asking for a way is enough. The address
// asked about belongs to nobody (RFC 5737).
func outward() netip.Addr {
	way, err := net.Dial("udp4", "198.51.100.1:9") //nolint:noctx // it neither sends nor waits
	if err != nil {
		return netip.Addr{}
	}
	defer func() { _ = way.Close() }()
	udp, ok := way.LocalAddr().(*net.UDPAddr)
	if !ok {
		return netip.Addr{}
	}
	return udp.AddrPort().Addr().Unmap()
}
