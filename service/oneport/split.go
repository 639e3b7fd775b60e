package oneport

import (
	"errors"
	"net"
	"sync"
	"time"
)

// opening begins the HTTP/2 connection preface (RFC 9113, section 3.4). No method of HTTP/1 is called so: the three bytes
// tell the two apart.
const opening = "PRI"

// Splitter gives each connection of one listener to one of two. Make it with New; it may be used from several goroutines.
type Splitter struct {
	from          net.Listener
	patience      time.Duration
	prior, others *branch

	mu      sync.Mutex
	looking map[net.Conn]struct{} // connections that have not said enough; nil after Close
}

// New returns a splitter of from. A connection that has not said within patience what it speaks is closed.
func New(from net.Listener, patience time.Duration) *Splitter {
	return &Splitter{
		from: from, patience: patience, looking: map[net.Conn]struct{}{},
		prior: newBranch(from.Addr()), others: newBranch(from.Addr()),
	}
}

// PriorKnowledge accepts the connections that speak HTTP/2 at once.
func (s *Splitter) PriorKnowledge() net.Listener { return s.prior }

// Others accepts all other connections.
func (s *Splitter) Others() net.Listener { return s.others }

// Run gives connections away until Close, and then returns nil. An error is one of the listener.
func (s *Splitter) Run() error {
	for {
		conn, err := s.from.Accept()
		switch {
		case errors.Is(err, net.ErrClosed):
			return nil
		case err != nil:
			return err
		}
		if !s.look(conn) {
			_ = conn.Close()
			continue
		}
		go s.give(conn)
	}
}

// Close stops accepting, and ends the connections that neither listener has taken. Those that were taken are left alone. It may
// be called again, and before Run.
func (s *Splitter) Close() error {
	s.mu.Lock()
	for conn := range s.looking {
		_ = conn.Close()
	}
	s.looking = nil
	s.mu.Unlock()
	err := s.from.Close()
	_, _ = s.prior.Close(), s.others.Close()
	if errors.Is(err, net.ErrClosed) {
		return nil
	}
	return err
}

// look remembers a connection that is being looked at; false after Close.
func (s *Splitter) look(conn net.Conn) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.looking == nil {
		return false
	}
	s.looking[conn] = struct{}{}
	return true
}

func (s *Splitter) give(conn net.Conn) {
	_ = conn.SetDeadline(time.Now().Add(s.patience))
	seen, err := firstBytes(conn)
	_ = conn.SetDeadline(time.Time{})
	s.mu.Lock()
	delete(s.looking, conn)
	s.mu.Unlock()
	if err != nil {
		_ = conn.Close()
		return
	}
	to := s.others
	if string(seen) == opening {
		to = s.prior
	}
	to.take(&seenConn{Conn: conn, seen: seen})
}

// firstBytes reads until the connection can be told, and no further.
func firstBytes(conn net.Conn) ([]byte, error) {
	seen := make([]byte, 0, len(opening))
	for len(seen) < len(opening) && string(seen) == opening[:len(seen)] {
		n, err := conn.Read(seen[len(seen):cap(seen)])
		seen = seen[:len(seen)+n]
		if err != nil {
			return nil, err
		}
	}
	return seen, nil
}

// seenConn reads again what was looked at.
type seenConn struct {
	net.Conn
	seen []byte
}

// Read gives the bytes that were looked at first.
func (c *seenConn) Read(into []byte) (int, error) {
	if len(c.seen) == 0 {
		return c.Conn.Read(into)
	}
	n := copy(into, c.seen)
	c.seen = c.seen[n:]
	return n, nil
}
