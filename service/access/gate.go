package access

import (
	"context"
	"crypto/subtle"
	"crypto/tls"
	"errors"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"os"
	"slices"
	"sync"
	"time"
)

// lookEvery is how often the file of keys is looked at: a key that was revoked ends within a second.
const lookEvery = 250 * time.Millisecond

// errRevoked ends the calls of a key that is no more.
var errRevoked = errors.New("the key was revoked")

// Gate stands between a port and the servers behind it. Make it with NewGate; it may be used from several goroutines.
type Gate struct {
	folder Folder
	log    *slog.Logger
	now    func() time.Time
	certs  *certificates
	open   []string
	tries  tries
	cross  *http.CrossOriginProtection

	mu   sync.Mutex
	keys map[string]holder
	file fs.FileInfo // when the keys were read; nil: there was none
}

// holder is a key that is good, with what ends its calls.
type holder struct {
	key    Key
	alive  context.Context
	revoke context.CancelCauseFunc
}

// Options say what a gate lets through.
type Options struct {
	// Open are beginnings of paths that need no key over HTTP, such as "/r/" for links that are unguessable themselves. Empty:
	// only the pairing page.
	Open []string
	// Log takes who paired and who was refused, never a key or a code. Nil: none.
	Log *slog.Logger
	// Now is the clock. Nil: the machine's.
	Now func() time.Time
}

// NewGate reads the keys of a folder, and makes the certificate if there is none.
func NewGate(ctx context.Context, folder Folder, opts Options) (*Gate, error) {
	g := &Gate{folder: folder, log: opts.Log, now: opts.Now, open: opts.Open, cross: http.NewCrossOriginProtection(), keys: map[string]holder{}}
	if g.log == nil {
		g.log = slog.New(slog.DiscardHandler)
	}
	if g.now == nil {
		g.now = time.Now
	}
	var err error
	if g.certs, err = folder.openCertificates(ctx, ownNames, g.now, g.log); err != nil {
		return nil, err
	}
	g.reload()
	return g, nil
}

// Fingerprint is that of the certificate, as browsers show it.
func (g *Gate) Fingerprint() (string, error) {
	c, err := g.certs.good(loopback)
	if err != nil {
		return "", err
	}
	return fingerprint(c), nil
}

// Listener protects the connections of a listener that begin with TLS, and leaves the others as they are: calls of this machine.
// A client that can speak HTTP/1.1 is given that, so that HTTP/2 from the first byte is gRPC, as on a plain port; a client that
// asks for HTTP/2 alone is one of gRPC.
func (g *Gate) Listener(from net.Listener) net.Listener {
	native := &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: g.certs.forHello, NextProtos: []string{"h2"}}
	browsers := native.Clone()
	browsers.NextProtos = []string{"http/1.1"}
	config := browsers.Clone()
	config.GetConfigForClient = func(hello *tls.ClientHelloInfo) (*tls.Config, error) {
		if len(hello.SupportedProtos) == 0 || slices.Contains(hello.SupportedProtos, "http/1.1") {
			return browsers, nil
		}
		return native, nil
	}
	return &listener{Listener: from, tls: config}
}

// Watch takes notice of keys that are made and revoked by others, until ctx ends.
func (g *Gate) Watch(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			g.reload()
		}
	}
}

// reload reads the keys if their file has changed, and ends the calls of those that are gone. A file that cannot be read
// leaves nobody in.
func (g *Gate) reload() {
	g.mu.Lock()
	defer g.mu.Unlock()
	info, err := os.Stat(g.folder.keysFile())
	if err == nil && g.file != nil && os.SameFile(info, g.file) && info.ModTime().Equal(g.file.ModTime()) && info.Size() == g.file.Size() {
		return
	}
	if err != nil && g.file == nil {
		return
	}
	g.file = info
	if err != nil {
		g.file = nil
	}
	kept, err := g.folder.read()
	if err != nil {
		g.log.Error("no key is good", slog.String("error", err.Error()))
	}
	good := make(map[string]holder, len(kept.Keys))
	for _, key := range kept.Keys {
		h, known := g.keys[key.ID]
		if !known || h.key.Hash != key.Hash {
			h.alive, h.revoke = context.WithCancelCause(context.Background())
		}
		h.key = key
		good[key.ID] = h
	}
	for id, h := range g.keys {
		if now, still := good[id]; !still || now.alive != h.alive {
			h.revoke(errRevoked)
			g.log.Info("key revoked", slog.String("id", id), slog.String("name", h.key.Name))
		}
	}
	g.keys = good
}

// admit returns a context that ends when the key does; false for a key that is not good.
func (g *Gate) admit(ctx context.Context, said string) (context.Context, bool) {
	t, ok := readText(said)
	if !ok {
		return ctx, false
	}
	h, ok := g.holderOf(t)
	if !ok {
		g.reload() // it may have been made just now
		if h, ok = g.holderOf(t); !ok {
			return ctx, false
		}
	}
	call, end := context.WithCancelCause(ctx)
	stop := context.AfterFunc(h.alive, func() { end(errRevoked) })
	context.AfterFunc(call, func() { stop() })
	return call, true
}

func (g *Gate) holderOf(t text) (holder, bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	h, ok := g.keys[t.id]
	if !ok || subtle.ConstantTimeCompare([]byte(hashOf(t.secret)), []byte(h.key.Hash)) != 1 {
		return holder{}, false
	}
	return h, true
}
