package access

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"errors"
	"strings"
	"time"
)

// pairingTime is how long a pairing code is good.
const pairingTime = 10 * time.Minute

// ErrWrongCode is the answer to a code that is not, or no longer, good. Which of them, a stranger is not told.
var ErrWrongCode = errors.New("this code is wrong, used or has run out; on the service's machine, glossladder key pair shows a new one")

// Pairing is a code that is good once.
type Pairing struct {
	// Code is as a person types it, such as K7QM-4XTN.
	Code string
	// Until is when it runs out.
	Until time.Time
}

// pairing is what is kept of it.
type pairing struct {
	Hash  string    `json:"sha256"`
	Until time.Time `json:"until"`
}

func (p *pairing) good(now time.Time) bool { return p != nil && now.Before(p.Until) }

// symbols are those of Crockford's base 32: none is taken for another. Eight of them are 40 random bits, which at the number of
// tries that are let through cannot be guessed while the code is good.
const (
	symbols    = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	codeLength = 8
)

// OpenPairing makes a code that is good once, for ten minutes. An earlier one is good no more.
func (f Folder) OpenPairing(ctx context.Context, now time.Time) (Pairing, error) {
	code := make([]byte, codeLength)
	_, _ = rand.Read(code) // it never fails
	for i, b := range code {
		code[i] = symbols[int(b)%len(symbols)]
	}
	p := Pairing{Code: string(code[:codeLength/2]) + "-" + string(code[codeLength/2:]), Until: now.Add(pairingTime)}
	err := f.edit(ctx, func(kept *record) error {
		kept.Pairing = &pairing{Hash: hashOf(string(code)), Until: p.Until.UTC()}
		return nil
	})
	return p, err
}

// Pair trades a code for a key, or gives [ErrWrongCode]. Of several who say the same code one gets a key.
func (f Folder) Pair(ctx context.Context, code, name string, now time.Time) (Key, string, error) {
	name, err := checkName(name)
	if err != nil {
		return Key{}, "", err
	}
	pin, err := f.Pin(ctx)
	if err != nil {
		return Key{}, "", err
	}
	said := hashOf(plainCode(code))
	key, told := mint(name, pin, now)
	err = f.edit(ctx, func(kept *record) error {
		if !kept.Pairing.good(now) || subtle.ConstantTimeCompare([]byte(said), []byte(kept.Pairing.Hash)) != 1 {
			return ErrWrongCode
		}
		kept.Pairing = nil
		kept.Keys = append(kept.Keys, key)
		return nil
	})
	if err != nil {
		return Key{}, "", err
	}
	return key, told.String(), nil
}

// plainCode undoes what people do to a code: small letters, blanks, and letters that look like the digits it has.
func plainCode(typed string) string {
	return strings.NewReplacer("-", "", " ", "", "O", "0", "I", "1", "L", "1").Replace(strings.ToUpper(typed))
}
