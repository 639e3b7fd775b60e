package webhook

import (
	"crypto/rand"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"
	"time"

	standardwebhooks "github.com/standard-webhooks/standard-webhooks/libraries/go"
)

// Secret is the key that an endpoint checks signatures with, in the text form of Standard Webhooks: "whsec_" and base64 of
// 24 to 64 bytes.
type Secret string

const secretPrefix = "whsec_"

// The sizes that Standard Webhooks allows, in bytes.
const (
	shortestSecret = 24
	longestSecret  = 64
)

// ErrSecret is the error of a text that is no secret. It never repeats the text.
var ErrSecret = errors.New(`a webhook secret is "whsec_" and base64 of 24 to 64 bytes`)

// NewSecret makes one at random.
func NewSecret() Secret {
	key := make([]byte, 32)
	_, _ = rand.Read(key) // never fails, by its documentation
	return Secret(secretPrefix + base64.StdEncoding.EncodeToString(key))
}

// Check returns [ErrSecret] for a text that is no secret.
func (s Secret) Check() error {
	text, ok := strings.CutPrefix(string(s), secretPrefix)
	key, err := base64.StdEncoding.DecodeString(text)
	if !ok || err != nil || len(key) < shortestSecret || len(key) > longestSecret {
		return ErrSecret
	}
	return nil
}

// String hides the secret from logs.
func (s Secret) String() string { return secretPrefix + "…" }

// GoString hides the secret from logs.
func (s Secret) GoString() string { return s.String() }

// signatures is the value of the webhook-signature header: one for each secret, so that a receiver can change over from
// one to the next.
func signatures(secrets []Secret, id string, at time.Time, body []byte) (string, error) {
	if len(secrets) == 0 {
		return "", errors.New("endpoint has no secret")
	}
	var all []string
	for _, secret := range secrets {
		if err := secret.Check(); err != nil {
			return "", err
		}
		signer, err := standardwebhooks.NewWebhook(string(secret))
		if err != nil {
			return "", ErrSecret
		}
		signature, err := signer.Sign(id, at, body)
		if err != nil {
			return "", fmt.Errorf("sign: %w", err)
		}
		all = append(all, signature)
	}
	return strings.Join(all, " "), nil
}
