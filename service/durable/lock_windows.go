package durable

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
)

const (
	deleteOnClose    = 0x04000000
	sharingViolation = syscall.Errno(32)
)

// tryLock opens a file of the folder that nobody else may open and that goes when it is closed. A nil unlock without an
// error: another holds it.
func tryLock(dir string) (unlock func() error, err error) {
	path := filepath.Join(dir, ".lock")
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	handle, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS,
		syscall.FILE_ATTRIBUTE_HIDDEN|deleteOnClose, 0)
	switch {
	case err == nil:
		return func() error { return syscall.CloseHandle(handle) }, nil
	// While the file is going it cannot be opened either.
	case errors.Is(err, sharingViolation), errors.Is(err, syscall.ERROR_ACCESS_DENIED):
		if _, err := os.Stat(dir); err != nil {
			return nil, err
		}
		return nil, nil
	}
	return nil, &os.PathError{Op: "lock", Path: dir, Err: err}
}
