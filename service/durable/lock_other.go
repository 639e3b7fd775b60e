//go:build !unix && !windows

package durable

import (
	"errors"
	"os"
)

// tryLock refuses: without locks two processes could undo each other's edits.
func tryLock(dir string) (unlock func() error, err error) {
	return nil, &os.PathError{Op: "lock", Path: dir, Err: errors.ErrUnsupported}
}
