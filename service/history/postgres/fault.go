package postgres

import (
	"context"
	"errors"
	"io"
	"net"
	"time"

	"github.com/jackc/pgx/v5/pgconn"

	"github.com/glossladder/glossladder/service/history"
)

// Codes of the server, PostgreSQL manual, appendix A.
const (
	diskFull         = "53100"
	foreignKeyBroken = "23503"
	uniqueBroken     = "23505"
	readOnly         = "25006"
	noPrivilege      = "42501"
	dataCorrupted    = "XX001"
	indexCorrupted   = "XX002"
)

// fault turns an error of the driver into a [*history.StoreError] by its code; other errors pass.
func (s *Store) fault(err error) error {
	if err == nil {
		return nil
	}
	if told, done := errors.AsType[*history.StoreError](err); done {
		if told.Where == "" {
			told.Where = s.where
		}
		return told
	}
	if lost(err) {
		return &history.StoreError{Fault: history.Away, Where: s.where, Err: err}
	}
	broken, ok := errors.AsType[*pgconn.PgError](err)
	if !ok {
		return err
	}
	faults := map[string]history.Fault{
		diskFull: history.Full, readOnly: history.ReadOnly, noPrivilege: history.ReadOnly,
		dataCorrupted: history.Damaged, indexCorrupted: history.Damaged,
	}
	if fault, ok := faults[broken.Code]; ok {
		return &history.StoreError{Fault: fault, Where: s.where, Err: err}
	}
	return err
}

// lost reports whether the server cannot be reached, went away or is not ready, so that the call may succeed later.
func lost(err error) bool {
	if broken, ok := errors.AsType[*pgconn.PgError](err); ok {
		switch class := broken.Code[:2]; class {
		case "08", "57": // connection exceptions; operator intervention: shutdown, crash, starting up
			return broken.Code != "57014" // a query that was cancelled was cancelled by its caller
		case "53":
			return broken.Code != diskFull // too many connections, out of memory
		case "58":
			return true // an error of the system under the server
		}
		return false
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) && !isNet(err) {
		return false
	}
	if _, ok := errors.AsType[*pgconn.ConnectError](err); ok {
		return true
	}
	return isNet(err) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed)
}

func isNet(err error) bool {
	_, ok := errors.AsType[*net.OpError](err)
	return ok
}

func broke(err error, code string) bool {
	broken, ok := errors.AsType[*pgconn.PgError](err)
	return ok && broken.Code == code
}

// patience is how long a call waits for a server that is away: about as long as a restart takes.
const patience = 15 * time.Second

// persist does a call, and does it again while the server is away. Repeatable says that the call may be sent again even if the
// server may have done it: it reads, or has a request id that the server would recognise.
func (s *Store) persist(ctx context.Context, repeatable bool, call func() error) error {
	ends := time.Now().Add(patience)
	for pause := 20 * time.Millisecond; ; pause = min(2*pause, time.Second) {
		err := call()
		if err == nil || !lost(err) {
			return s.fault(err)
		}
		if !repeatable && !neverSent(err) {
			return &history.StoreError{Fault: history.Away, Where: s.where, Unknown: true, Err: err}
		}
		if time.Now().After(ends) {
			return s.fault(err)
		}
		select {
		case <-ctx.Done():
			return errors.Join(ctx.Err(), s.fault(err))
		case <-time.After(pause):
		}
	}
}

// neverSent reports whether the server cannot have done what was asked.
func neverSent(err error) bool {
	_, connecting := errors.AsType[*pgconn.ConnectError](err)
	return connecting || pgconn.SafeToRetry(err)
}
