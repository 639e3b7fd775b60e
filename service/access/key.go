package access

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"time"
)

// Key is what is known of a key once it is made: not its secret.
type Key struct {
	// ID tells keys apart, and is no secret.
	ID string `json:"id"`
	// Name says whose it is, in the shop's words.
	Name string `json:"name"`
	// Made is when, to the second, in UTC.
	Made time.Time `json:"made"`
	// Hash is the SHA-256 of the secret. The secret has 130 random bits, so that no slower hash would protect it better.
	Hash string `json:"sha256"`
}

// mark begins every key, so that a scanner of files can tell one.
const mark = "gl"

// text is a key as it is carried: gl_ID_SECRET_PIN. The pin says which service it is for.
type text struct{ id, secret, pin string }

func (t text) String() string { return strings.Join([]string{mark, t.id, t.secret, t.pin}, "_") }

// readText takes a key apart.
func readText(said string) (text, bool) {
	parts := strings.Split(strings.TrimSpace(said), "_")
	if len(parts) != 4 || parts[0] != mark || parts[1] == "" || len(parts[2]) < 26 || parts[3] == "" {
		return text{}, false
	}
	return text{id: parts[1], secret: parts[2], pin: parts[3]}, true
}

// mint makes a key and what is kept of it.
func mint(name, pin string, now time.Time) (Key, text) {
	t := text{id: strings.ToLower(rand.Text()[:8]), secret: strings.ToLower(rand.Text()), pin: pin}
	return Key{ID: t.id, Name: name, Made: now.UTC().Truncate(time.Second), Hash: hashOf(t.secret)}, t
}

func hashOf(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}
