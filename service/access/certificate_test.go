package access_test

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/access"
)

func certificate(t *testing.T, dir string) *x509.Certificate {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "certificate.pem"))
	require.NoError(t, err)
	block, _ := pem.Decode(text)
	require.NotNil(t, block)
	leaf, err := x509.ParseCertificate(block.Bytes)
	require.NoError(t, err)
	return leaf
}

func TestTheCertificateNamesThisMachineAndVouchesForNoOther(t *testing.T) {
	dir := t.TempDir()
	_, err := access.NewGate(t.Context(), access.At(dir), access.Options{})
	require.NoError(t, err)
	leaf := certificate(t, dir)
	for _, name := range []string{"localhost", "127.0.0.1", "[::1]"} {
		require.NoError(t, leaf.VerifyHostname(name))
	}
	for _, ip := range access.LANAddresses() {
		require.NoError(t, leaf.VerifyHostname(ip.String()))
	}
	assert.LessOrEqual(t, leaf.NotAfter.Sub(leaf.NotBefore), 398*24*time.Hour, "CA/Browser Forum Baseline Requirements, section 6.3.2")
	assert.Equal(t, []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}, leaf.ExtKeyUsage)
	assert.True(t, leaf.PermittedDNSDomainsCritical)
	assert.Equal(t, leaf.DNSNames, leaf.PermittedDNSDomains)
	assert.Len(t, leaf.PermittedIPRanges, len(leaf.IPAddresses))
	for _, allowed := range leaf.PermittedIPRanges {
		ones, bits := allowed.Mask.Size()
		assert.Equal(t, bits, ones, "one address alone")
	}
}

func TestTheCertificateIsRenewedInItsLastMonthForTheSameKey(t *testing.T) {
	dir := t.TempDir()
	at := func(now time.Time) *x509.Certificate {
		_, err := access.NewGate(t.Context(), access.At(dir), access.Options{Now: func() time.Time { return now }})
		require.NoError(t, err)
		return certificate(t, dir)
	}
	first := at(morning)
	pin, err := access.At(dir).Pin(t.Context())
	require.NoError(t, err)
	assert.True(t, first.Equal(at(first.NotAfter.Add(-30*24*time.Hour-time.Minute))), "there is a month left")
	second := at(first.NotAfter.Add(-30 * 24 * time.Hour))
	assert.False(t, first.Equal(second))
	assert.True(t, second.NotAfter.After(first.NotAfter))
	assert.Equal(t, first.PublicKey, second.PublicKey)
	again, err := access.At(dir).Pin(t.Context())
	require.NoError(t, err)
	assert.Equal(t, pin, again)
}

func TestAServiceThatRunsRenewsItsCertificate(t *testing.T) {
	now := time.Now()
	r := reach(t, "192.0.2.7", access.Options{Now: func() time.Time { return now }})
	first := certificate(t, r.dir)
	now = first.NotAfter.Add(-time.Hour)
	conn, err := (&tls.Dialer{Config: &tls.Config{InsecureSkipVerify: true}}).DialContext(t.Context(), "tcp", r.address) //nolint:gosec // looked at below
	require.NoError(t, err)
	defer func() { _ = conn.Close() }()
	secure, ok := conn.(*tls.Conn)
	require.True(t, ok)
	shown := secure.ConnectionState().PeerCertificates[0]
	assert.True(t, shown.NotAfter.After(first.NotAfter))
	assert.True(t, shown.Equal(certificate(t, r.dir)), "and keeps it")
	assert.Equal(t, first.PublicKey, shown.PublicKey)
}

// The whole of 127.0.0.0/8 is this machine's (RFC 1122, section 3.2.1.3), so that it can come by an address that the certificate
// did not name.
func TestACallerByAnAddressThatIsNewGetsACertificateForIt(t *testing.T) {
	r := reach(t, "192.0.2.7", access.Options{})
	listener, err := net.Listen("tcp", "127.7.7.7:0")
	if err != nil {
		t.Skip("only Linux has all of 127.0.0.0/8 by itself")
	}
	require.Error(t, certificate(t, r.dir).VerifyHostname("127.7.7.7"))
	server := &http.Server{ReadHeaderTimeout: time.Minute, ConnContext: r.gate.ConnContext, Handler: r.gate.Handler(http.NotFoundHandler())}
	go func() { _ = server.Serve(r.gate.Listener(elsewhere{listener, "192.0.2.7"})) }()
	defer func() { _ = server.Close() }()
	conn, err := (&tls.Dialer{Config: &tls.Config{InsecureSkipVerify: true}}).DialContext(t.Context(), "tcp", listener.Addr().String()) //nolint:gosec // looked at below
	require.NoError(t, err)
	defer func() { _ = conn.Close() }()
	secure, ok := conn.(*tls.Conn)
	require.True(t, ok)
	require.NoError(t, secure.ConnectionState().PeerCertificates[0].VerifyHostname("127.7.7.7"))
}

func TestAPrivateKeyThatIsBrokenSaysSo(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "private-key.pem"), []byte("nothing"), 0o600))
	_, err := access.NewGate(t.Context(), access.At(dir), access.Options{})
	require.ErrorContains(t, err, "put it aside")
}
