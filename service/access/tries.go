package access

import (
	"net/netip"
	"sync"
	"time"
)

// How many codes may be tried in each window, from one address and from all.
const (
	triesWindow = time.Minute
	triesOfOne  = 5
	triesOfAll  = 30
)

// tries counts who tried codes. The zero value has counted none; it may be used from several goroutines.
type tries struct {
	mu    sync.Mutex
	since time.Time
	of    map[netip.Prefix]int
	all   int
}

// allow counts a try, or says how long to wait for the next.
func (t *tries) allow(from netip.Addr, now time.Time) (wait time.Duration, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.of == nil || now.Sub(t.since) >= triesWindow {
		t.since, t.of, t.all = now, map[netip.Prefix]int{}, 0
	}
	who := neighbourhood(from)
	if t.all >= triesOfAll || t.of[who] >= triesOfOne {
		return t.since.Add(triesWindow).Sub(now), false
	}
	t.of[who]++
	t.all++
	return 0, true
}

// neighbourhood is what one machine can speak from: an IPv4 address, or all of an IPv6 network.
func neighbourhood(from netip.Addr) netip.Prefix {
	from = from.Unmap().WithZone("")
	bits := 32
	if from.Is6() {
		bits = 64
	}
	who, err := from.Prefix(bits)
	if err != nil { // an address that is none: all of those share one count
		return netip.Prefix{}
	}
	return who
}
