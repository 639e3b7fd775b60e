package sqlite

import (
	"database/sql"
	"errors"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"github.com/glossladder/glossladder/service/history"
)

// classify turns an error of the driver into a [*history.StoreError] by its code; other errors pass.
func classify(err error) error {
	if err == nil {
		return nil
	}
	if _, done := errors.AsType[*history.StoreError](err); done {
		return err
	}
	broken, ok := errors.AsType[*sqlite.Error](err)
	if !ok {
		if errors.Is(err, errClosed) || errors.Is(err, sql.ErrConnDone) {
			return &history.StoreError{Fault: history.Away, Err: err}
		}
		return err
	}
	fault := history.Away
	switch broken.Code() & 0xff { // the primary code; the rest says where it came from
	case lib.SQLITE_FULL:
		fault = history.Full
	case lib.SQLITE_READONLY, lib.SQLITE_PERM:
		fault = history.ReadOnly
	case lib.SQLITE_CORRUPT:
		fault = history.Damaged
	case lib.SQLITE_NOTADB:
		fault = history.Foreign
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED, lib.SQLITE_IOERR, lib.SQLITE_CANTOPEN, lib.SQLITE_NOMEM, lib.SQLITE_INTERRUPT:
	default:
		return err // a constraint, or a mistake of ours
	}
	return &history.StoreError{Fault: fault, Err: err}
}

// fault is classify with the file's name.
func (s *Store) fault(err error) error {
	err = classify(err)
	if fault, ok := errors.AsType[*history.StoreError](err); ok && fault.Where == "" {
		fault.Where = s.path
	}
	return err
}

// breaks reports whether an error is a broken constraint of a kind, given by its extended code.
func breaks(err error, code int) bool {
	broken, ok := errors.AsType[*sqlite.Error](err)
	return ok && broken.Code() == code
}

// busy reports whether another program was in the way.
func busy(err error) bool {
	broken, ok := errors.AsType[*sqlite.Error](err)
	return ok && broken.Code()&0xff == lib.SQLITE_BUSY
}
