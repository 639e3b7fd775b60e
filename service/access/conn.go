package access

import (
	"crypto/tls"
	"net"
	"net/netip"
	"sync"
	"sync/atomic"
)

// handshake is the first byte of every TLS connection (RFC 8446, section 5.1: a record of content type 22). No method of HTTP
// begins with it.
const handshake = 0x16

// caller is the address of whoever is at the other end of a connection.
type caller struct {
	net.Addr
	conn *conn
}

// private says whether the connection is protected, once something was read from it.
func (c caller) private() bool { return c.conn.secure.Load() != nil }

// ip is the address alone, invalid where there is none.
func (c caller) ip() netip.Addr {
	if tcp, ok := c.Addr.(*net.TCPAddr); ok {
		return tcp.AddrPort().Addr().Unmap()
	}
	return netip.Addr{}
}

// here says whether the caller is on this machine. One who calls by the machine's address in a network is not: what came
// through a port that was passed on would look the same.
func (c caller) here() bool { return c.ip().IsLoopback() }

// listener makes each connection that begins so a TLS connection.
type listener struct {
	net.Listener
	tls *tls.Config
}

// Accept does not wait for what a connection says: the first Read does.
func (l *listener) Accept() (net.Conn, error) {
	raw, err := l.Listener.Accept()
	if err != nil {
		return nil, err
	}
	return &conn{Conn: raw, config: l.tls}, nil
}

// conn is either protected or plain, as the other end begins.
type conn struct {
	net.Conn // as it came: deadlines and addresses are the same for both
	config   *tls.Config
	look     sync.Once
	failed   error
	plain    again                    // once a plain connection was looked at
	secure   atomic.Pointer[tls.Conn] // once a protected one was
}

// Read looks at the first byte, once.
func (c *conn) Read(into []byte) (int, error) {
	c.look.Do(c.first)
	if c.failed != nil {
		return 0, c.failed
	}
	if secure := c.secure.Load(); secure != nil {
		return secure.Read(into)
	}
	return c.plain.Read(into)
}

func (c *conn) first() {
	one := make([]byte, 1)
	if _, c.failed = c.Conn.Read(one); c.failed != nil {
		return
	}
	if one[0] == handshake {
		c.secure.Store(tls.Server(&again{Conn: c.Conn, begins: one}, c.config))
		return
	}
	c.plain = again{Conn: c.Conn, begins: one}
}

// Write waits until the other end has said how it speaks. In every protocol behind the port it is the client that begins.
func (c *conn) Write(text []byte) (int, error) {
	c.look.Do(c.first)
	if c.failed != nil {
		return 0, c.failed
	}
	if secure := c.secure.Load(); secure != nil {
		return secure.Write(text)
	}
	return c.Conn.Write(text)
}

// Close also ends a look that is under way.
func (c *conn) Close() error {
	if secure := c.secure.Load(); secure != nil {
		return secure.Close()
	}
	return c.Conn.Close()
}

// RemoteAddr is a caller.
func (c *conn) RemoteAddr() net.Addr {
	return caller{Addr: c.Conn.RemoteAddr(), conn: c}
}

// again reads once more what was looked at.
type again struct {
	net.Conn
	begins []byte
}

// Read gives the byte that was looked at first.
func (a *again) Read(into []byte) (int, error) {
	if len(a.begins) == 0 || len(into) == 0 {
		return a.Conn.Read(into)
	}
	n := copy(into, a.begins)
	a.begins = a.begins[n:]
	return n, nil
}
