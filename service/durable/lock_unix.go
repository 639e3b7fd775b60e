//go:build unix

package durable

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks the folder itself, so that nothing is left in it. A nil unlock without an error: another holds it.
func tryLock(dir string) (unlock func() error, err error) {
	open, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	err = syscall.Flock(int(open.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if err == nil {
		return open.Close, nil
	}
	closed := open.Close()
	if errors.Is(err, syscall.EWOULDBLOCK) || errors.Is(err, syscall.EINTR) {
		return nil, closed
	}
	return nil, errors.Join(&os.PathError{Op: "lock", Path: dir, Err: err}, closed)
}
