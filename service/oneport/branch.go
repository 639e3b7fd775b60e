package oneport

import (
	"net"
	"sync"
)

// branch is one of the two listeners.
type branch struct {
	address net.Addr
	conns   chan net.Conn
	ended   chan struct{}
	end     sync.Once
}

func newBranch(address net.Addr) *branch {
	return &branch{address: address, conns: make(chan net.Conn), ended: make(chan struct{})}
}

// take hands a connection to whoever accepts next, and closes it if nobody ever will.
func (b *branch) take(conn net.Conn) {
	select {
	case b.conns <- conn:
	case <-b.ended:
		_ = conn.Close()
	}
}

// Accept is for a server. After Close it returns [net.ErrClosed].
func (b *branch) Accept() (net.Conn, error) {
	select {
	case conn := <-b.conns:
		return conn, nil
	case <-b.ended:
		return nil, net.ErrClosed
	}
}

// Close ends this branch alone; the port stays open.
func (b *branch) Close() error {
	b.end.Do(func() { close(b.ended) })
	return nil
}

// Addr is the address of the shared port.
func (b *branch) Addr() net.Addr { return b.address }
