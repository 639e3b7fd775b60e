package access

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// longestName is how many characters a key's name may have.
const longestName = 60

// NoKeyError says that no key has this id.
type NoKeyError struct{ ID string }

func (e *NoKeyError) Error() string {
	return fmt.Sprintf("no key has the id %q; glossladder key list shows them", e.ID)
}

// Add makes a key. Its text is told this once and kept nowhere.
func (f Folder) Add(ctx context.Context, name string, now time.Time) (Key, string, error) {
	name, err := checkName(name)
	if err != nil {
		return Key{}, "", err
	}
	pin, err := f.Pin(ctx)
	if err != nil {
		return Key{}, "", err
	}
	key, said := mint(name, pin, now)
	err = f.edit(ctx, func(kept *record) error {
		kept.Keys = append(kept.Keys, key)
		return nil
	})
	if err != nil {
		return Key{}, "", err
	}
	return key, said.String(), nil
}

// Keys lists them, the oldest first.
func (f Folder) Keys() ([]Key, error) {
	kept, err := f.read()
	return kept.Keys, err
}

// Revoke ends a key, or gives a [*NoKeyError]. A service that runs takes notice within a second, also of calls in flight.
func (f Folder) Revoke(ctx context.Context, id string) (gone Key, err error) {
	err = f.edit(ctx, func(kept *record) error {
		at := slices.IndexFunc(kept.Keys, func(k Key) bool { return k.ID == id })
		if at < 0 {
			return &NoKeyError{ID: id}
		}
		gone = kept.Keys[at]
		kept.Keys = slices.Delete(kept.Keys, at, at+1)
		return nil
	})
	return gone, err
}

// nameError says that a name is too long to be kept, or has characters that do not print.
type nameError struct {
	name  string
	count int // characters
}

func (e *nameError) long() bool { return e.count > longestName }

func (e *nameError) Error() string {
	if e.long() {
		return fmt.Sprintf("the name has %d characters; at most %d are kept", e.count, longestName)
	}
	return fmt.Sprintf("the name %q has characters that do not print; leave them out", e.name)
}

// checkName trims a name that somebody gave a key.
func checkName(name string) (string, error) {
	name = strings.TrimSpace(name)
	switch {
	case name == "":
		return "", errors.New("a key needs a name that says whose it is, such as \"phone in bay 2\"")
	case utf8.RuneCountInString(name) > longestName:
		return "", &nameError{name: name, count: utf8.RuneCountInString(name)}
	case strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }):
		return "", &nameError{name: name, count: utf8.RuneCountInString(name)}
	}
	return name, nil
}
