package access

import (
	"context"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base32"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/glossladder/glossladder/service/durable"
)

func (f Folder) privateKeyFile() string { return filepath.Join(f.dir, "private-key.pem") }

// privateKey is the service's own, made when it is first asked for. Every certificate of the service is for this one, so that
// whoever knows it need not be told again when a certificate is renewed.
func (f Folder) privateKey(ctx context.Context) (key *ecdsa.PrivateKey, err error) {
	if key, err = f.readPrivateKey(); !errors.Is(err, fs.ErrNotExist) {
		return key, err
	}
	unlock, err := f.lock(ctx)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, unlock()) }()
	if key, err = f.readPrivateKey(); !errors.Is(err, fs.ErrNotExist) { // another process was first
		return key, err
	}
	if key, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader); err != nil {
		return nil, fmt.Errorf("make the private key: %w", err)
	}
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, fmt.Errorf("make the private key: %w", err)
	}
	text := pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der})
	if err := durable.WriteFile(f.privateKeyFile(), text, 0o600); err != nil {
		return nil, fmt.Errorf("keep the private key: %w", err)
	}
	return key, nil
}

func (f Folder) readPrivateKey() (*ecdsa.PrivateKey, error) {
	text, err := os.ReadFile(f.privateKeyFile())
	if err != nil {
		return nil, fmt.Errorf("private key: %w", err)
	}
	block, _ := pem.Decode(text)
	if block == nil {
		return nil, fmt.Errorf("%s holds no private key; put it aside, and make new keys", f.privateKeyFile())
	}
	parsed, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; put it aside, and make new keys", f.privateKeyFile(), err)
	}
	key, ok := parsed.(*ecdsa.PrivateKey)
	if !ok {
		return nil, fmt.Errorf("%s is of another kind, %T; put it aside, and make new keys", f.privateKeyFile(), parsed)
	}
	return key, nil
}

// Pin names the service by its public key. Every key that it makes ends on it, so that a client sends a key to no other.
func (f Folder) Pin(ctx context.Context) (string, error) {
	key, err := f.privateKey(ctx)
	if err != nil {
		return "", err
	}
	return pinOf(&key.PublicKey)
}

// pinOf is half of the SHA-256 of a public key as certificates carry it (RFC 7469, section 2.4): 128 bits are too many to make
// another key for.
func pinOf(public crypto.PublicKey) (string, error) {
	der, err := x509.MarshalPKIXPublicKey(public)
	if err != nil {
		return "", fmt.Errorf("public key: %w", err)
	}
	sum := sha256.Sum256(der)
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(sum[:16])), nil
}
