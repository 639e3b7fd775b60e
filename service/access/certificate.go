package access

import (
	"context"
	"crypto/ecdsa"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"fmt"
	"log/slog"
	"math/big"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/glossladder/glossladder/service/durable"
)

// A certificate is good for as long as browsers take one (CA/Browser Forum Baseline Requirements, section 6.3.2, before it was
// shortened for public ones: 398 days), and renewed in its last month.
const (
	certificateTime = 397 * 24 * time.Hour
	renewalTime     = 30 * 24 * time.Hour
	clockSkew       = time.Hour // a phone whose clock is behind
)

// certificates keeps one that is good, for every name of this machine. It may be used from several goroutines.
type certificates struct {
	file string
	key  *ecdsa.PrivateKey
	own  func() names
	now  func() time.Time
	log  *slog.Logger

	mu      sync.Mutex
	current *tls.Certificate
}

// openCertificates takes the certificate of the folder, or makes one.
func (f Folder) openCertificates(ctx context.Context, own func() names, now func() time.Time, log *slog.Logger) (*certificates, error) {
	key, err := f.privateKey(ctx)
	if err != nil {
		return nil, err
	}
	c := &certificates{file: filepath.Join(f.dir, "certificate.pem"), key: key, own: own, now: now, log: log}
	c.current = c.read()
	_, err = c.good(netip.Addr{})
	return c, err
}

// read returns the certificate of the file, nil if there is none for this key.
func (c *certificates) read() *tls.Certificate {
	text, err := os.ReadFile(c.file)
	if err != nil {
		return nil
	}
	block, _ := pem.Decode(text)
	if block == nil {
		return nil
	}
	leaf, err := x509.ParseCertificate(block.Bytes)
	if err != nil || !c.key.PublicKey.Equal(leaf.PublicKey) {
		return nil
	}
	return &tls.Certificate{Certificate: [][]byte{block.Bytes}, PrivateKey: c.key, Leaf: leaf}
}

// forHello is for [tls.Config]: the caller came by an address that the certificate has to name.
func (c *certificates) forHello(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	var by netip.Addr
	if hello.Conn != nil {
		if tcp, ok := hello.Conn.LocalAddr().(*net.TCPAddr); ok {
			by = tcp.AddrPort().Addr().Unmap().WithZone("")
		}
	}
	return c.good(by)
}

// good returns the certificate, renewed if it is about to run out, or does not name the address that a caller came by.
func (c *certificates) good(by netip.Addr) (*tls.Certificate, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.current != nil && c.now().Before(c.current.Leaf.NotAfter.Add(-renewalTime)) && (!by.IsValid() && c.namesAll() || by.IsValid() && c.names(by)) {
		return c.current, nil
	}
	renewed, err := c.issue(c.own().with(by))
	if err != nil {
		return nil, err
	}
	c.current = renewed
	c.log.Info("new certificate", slog.String("sha256", fingerprint(renewed)), slog.Time("until", renewed.Leaf.NotAfter))
	return renewed, nil
}

func (c *certificates) names(ip netip.Addr) bool {
	return c.current.Leaf.VerifyHostname(ip.String()) == nil
}

// namesAll says whether the certificate has every name that the machine has now.
func (c *certificates) namesAll() bool {
	own := c.own()
	for _, host := range own.hosts {
		if c.current.Leaf.VerifyHostname(host) != nil {
			return false
		}
	}
	for _, ip := range own.ips {
		if !c.names(ip) {
			return false
		}
	}
	return true
}

// issue makes a certificate and keeps it. People may install it on a phone as one to trust, so it is made to vouch for these
// names and for no others, whoever should get hold of its key.
func (c *certificates) issue(own names) (*tls.Certificate, error) {
	serial, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127))
	if err != nil {
		return nil, fmt.Errorf("make a certificate: %w", err)
	}
	now := c.now()
	template := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{Organization: []string{"Glossladder"}, CommonName: "Glossladder of this workshop"},
		NotBefore: now.Add(-clockSkew), NotAfter: now.Add(certificateTime),
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, IsCA: true, MaxPathLenZero: true,
		DNSNames: own.hosts, PermittedDNSDomainsCritical: true, PermittedDNSDomains: own.hosts,
	}
	for _, ip := range own.ips {
		template.IPAddresses = append(template.IPAddresses, ip.AsSlice())
		template.PermittedIPRanges = append(template.PermittedIPRanges, &net.IPNet{IP: ip.AsSlice(), Mask: net.CIDRMask(ip.BitLen(), ip.BitLen())})
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &c.key.PublicKey, c.key)
	if err != nil {
		return nil, fmt.Errorf("make a certificate: %w", err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, fmt.Errorf("make a certificate: %w", err)
	}
	if err := durable.WriteFile(c.file, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), 0o600); err != nil {
		return nil, fmt.Errorf("keep the certificate: %w", err)
	}
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: c.key, Leaf: leaf}, nil
}

// fingerprint is how browsers show a certificate: the SHA-256 of all of it.
func fingerprint(c *tls.Certificate) string {
	sum := sha256.Sum256(c.Certificate[0])
	pairs := make([]string, len(sum))
	for i, b := range sum {
		pairs[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(pairs, ":")
}
