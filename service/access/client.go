package access

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"os"
)

// ErrNoKeyText says that a text is no key.
var ErrNoKeyText = errors.New("this is no access key; one begins with gl_ and was shown by: glossladder key add NAME")

// StrangerError says that whoever answers is not the service that a key was made by. The key was not sent.
type StrangerError struct{ Address string }

func (e *StrangerError) Error() string {
	return fmt.Sprintf("%s is not the service that made this key, so the key was not sent; if that service got a new private key, make a new access key there", e.Address)
}

// Credentials let a gRPC client call a service on another machine.
type Credentials struct {
	key string
	// TLS is how to connect: it trusts the service that made the key, and no other, unless a file of authorities said whom.
	TLS *tls.Config
}

// NewCredentials reads a key. Trusted is a file of certificates (PEM) to trust instead of what the key says, for a service behind
// another certificate; "" for none. Address is for what is told, and stranger is called when somebody else answers.
func NewCredentials(key, trusted, address string, stranger func(error)) (*Credentials, error) {
	t, ok := readText(key)
	if !ok {
		return nil, ErrNoKeyText
	}
	c := &Credentials{key: t.String()}
	if trusted != "" {
		text, err := os.ReadFile(trusted)
		if err != nil {
			return nil, fmt.Errorf("certificates to trust: %w", err)
		}
		pool := x509.NewCertPool()
		if !pool.AppendCertsFromPEM(text) {
			return nil, fmt.Errorf("%s holds no certificate (PEM)", trusted)
		}
		c.TLS = &tls.Config{MinVersion: tls.VersionTLS12, RootCAs: pool}
		return c, nil
	}
	c.TLS = &tls.Config{
		MinVersion: tls.VersionTLS12,
		// The service vouches for itself, so there is no authority to ask. VerifyConnection compares its public key with that in
		// the access key, which is stronger: nobody else can answer, and an address that has changed does not matter.
		InsecureSkipVerify: true,
		VerifyConnection: func(state tls.ConnectionState) error {
			if pin, err := pinOf(state.PeerCertificates[0].PublicKey); err != nil || pin != t.pin {
				err := &StrangerError{Address: address}
				stranger(err)
				return err
			}
			return nil
		},
	}
	return c, nil
}

// GetRequestMetadata is for [google.golang.org/grpc/credentials.PerRPCCredentials].
func (c *Credentials) GetRequestMetadata(context.Context, ...string) (map[string]string, error) {
	return map[string]string{"authorization": "Bearer " + c.key}, nil
}

// RequireTransportSecurity keeps the key off plain connections.
func (c *Credentials) RequireTransportSecurity() bool { return true }
