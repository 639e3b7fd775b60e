package oneport_test

import (
	"io"
	"net"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/oneport"
)

// start splits a port of its own; each branch sends what its connections said back, behind its name.
func start(t *testing.T, patience time.Duration) (address string, splitter *oneport.Splitter) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	splitter = oneport.New(listener, patience)
	ended := make(chan error, 1)
	go func() { ended <- splitter.Run() }()
	echo := func(name string, on net.Listener) {
		for {
			conn, err := on.Accept()
			if err != nil {
				return
			}
			go func() {
				_, _ = io.WriteString(conn, name+":")
				_, _ = io.Copy(conn, conn)
				_ = conn.Close()
			}()
		}
	}
	go echo("prior", splitter.PriorKnowledge())
	go echo("other", splitter.Others())
	t.Cleanup(func() {
		require.NoError(t, splitter.Close())
		require.NoError(t, <-ended)
	})
	return listener.Addr().String(), splitter
}

func TestTheFirstBytesDecideAndNoneIsLost(t *testing.T) {
	address, _ := start(t, time.Minute)
	for name, row := range map[string]struct {
		says []string // each in a packet of its own
		want string
	}{
		"the HTTP/2 preface":                {[]string{"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"}, "prior:PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"},
		"the preface, byte for byte":        {[]string{"P", "R", "I", " *"}, "prior:PRI *"},
		"a GET":                             {[]string{"GET / HTTP/1.1\r\n\r\n"}, "other:GET / HTTP/1.1\r\n\r\n"},
		"one byte is enough to tell":        {[]string{"G"}, "other:G"},
		"a method that begins alike":        {[]string{"P", "OST /"}, "other:POST /"},
		"a method that begins alike longer": {[]string{"PR", "OPFIND /"}, "other:PROPFIND /"},
		"the first bytes of TLS":            {[]string{"\x16\x03\x01"}, "other:\x16\x03\x01"},
	} {
		t.Run(name, func(t *testing.T) {
			conn, err := net.Dial("tcp", address)
			require.NoError(t, err)
			for _, packet := range row.says {
				_, err = io.WriteString(conn, packet)
				require.NoError(t, err)
			}
			require.NoError(t, conn.(*net.TCPConn).CloseWrite())
			got, err := io.ReadAll(conn)
			require.NoError(t, err)
			assert.Equal(t, row.want, string(got))
			require.NoError(t, conn.Close())
		})
	}
}

func TestAConnectionThatSaysNothingIsClosed(t *testing.T) {
	address, _ := start(t, 20*time.Millisecond)
	for name, says := range map[string]string{"nothing": "", "half of the preface": "PR"} {
		t.Run(name, func(t *testing.T) {
			conn, err := net.Dial("tcp", address)
			require.NoError(t, err)
			_, err = io.WriteString(conn, says)
			require.NoError(t, err)
			got, _ := io.ReadAll(conn) // it ends: that is the test
			assert.Empty(t, got)
			require.NoError(t, conn.Close())
		})
	}
}

func TestCloseEndsWhatIsBeingLookedAtAndLeavesWhatWasTaken(t *testing.T) {
	address, splitter := start(t, time.Hour)
	taken, err := net.Dial("tcp", address)
	require.NoError(t, err)
	_, err = io.WriteString(taken, "G")
	require.NoError(t, err)
	buf := make([]byte, len("other:G"))
	_, err = io.ReadFull(taken, buf)
	require.NoError(t, err)
	silent, err := net.Dial("tcp", address)
	require.NoError(t, err)

	require.NoError(t, splitter.Close())
	require.NoError(t, splitter.Close(), "twice is no error")
	_, err = io.ReadAll(silent)
	if err != nil { // a reset is an end as well
		t.Log(err)
	}
	_, err = io.WriteString(taken, "still")
	require.NoError(t, err)
	require.NoError(t, taken.(*net.TCPConn).CloseWrite())
	rest, err := io.ReadAll(taken)
	require.NoError(t, err)
	assert.Equal(t, "still", string(rest))
	_, err = net.Dial("tcp", address)
	require.Error(t, err, "nobody listens any more")
	for _, branch := range []net.Listener{splitter.PriorKnowledge(), splitter.Others()} {
		_, err = branch.Accept()
		require.ErrorIs(t, err, net.ErrClosed)
	}
}
