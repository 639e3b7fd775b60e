package app

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/rpc"
)

// record is where vehicles and jobs are kept. It is opened when it is first asked for: most commands never ask, and a database
// that is away at the start may be there later.
type record struct {
	where string
	turn  chan struct{} // held by whoever opens or closes

	store  history.Store
	book   *history.Book
	closed bool
}

func newRecord(where string) *record { return &record{where: where, turn: make(chan struct{}, 1)} }

// Open gives the store and the book over it.
func (r *record) Open(ctx context.Context) (history.Store, *history.Book, error) {
	if r.where == "" {
		return nil, nil, rpc.ErrNoRecord
	}
	select {
	case r.turn <- struct{}{}:
		defer func() { <-r.turn }()
	case <-ctx.Done():
		return nil, nil, ctx.Err()
	}
	if r.closed {
		return nil, nil, rpc.ErrStopping
	}
	if r.store == nil {
		store, err := openStore(ctx, r.where)
		if err != nil {
			return nil, nil, err
		}
		r.store, r.book = store, history.NewBook(store)
	}
	return r.store, r.book, nil
}

// begun says whether anything may be on record. A file that is not there yet is not made to find that out.
func (r *record) begun() bool {
	if r.where == "" || isDatabase(r.where) {
		return r.where != ""
	}
	_, err := os.Stat(r.where)
	return err == nil
}

// isDatabase tells a PostgreSQL database from a file.
func isDatabase(where string) bool {
	return strings.HasPrefix(where, "postgres://") || strings.HasPrefix(where, "postgresql://")
}

func openStore(ctx context.Context, where string) (history.Store, error) {
	// Opening reads and may write; whoever asked first may give up, and others wait for the same.
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), openTime)
	defer cancel()
	store, err := openAt(ctx, where)
	if _, told := errors.AsType[*history.StoreError](err); err != nil && !told && ctx.Err() == nil {
		return nil, &rpc.RecordError{Cause: err}
	}
	return store, err
}

func openAt(ctx context.Context, where string) (history.Store, error) {
	if isDatabase(where) {
		store, err := postgres.Open(ctx, where)
		if err != nil {
			return nil, err
		}
		return store, nil
	}
	if err := os.MkdirAll(filepath.Dir(where), 0o700); err != nil {
		return nil, err
	}
	store, err := sqlite.Open(ctx, where)
	if err != nil {
		return nil, err
	}
	return store, nil
}

// openTime is how long the opening of a store may take, its migrations included.
const openTime = 20 * time.Second

// look says whether the store answers.
func (r *record) look(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, answerTime)
	defer cancel()
	store, _, err := r.Open(ctx)
	if err != nil {
		return err
	}
	_, err = store.ListVehicles(ctx, history.VehicleQuery{Limit: 1})
	return err
}

// away reports whether an error means that the store may be back later, so that a service may start without it.
func away(err error) bool {
	if errors.Is(err, context.DeadlineExceeded) {
		return true
	}
	fault, ok := errors.AsType[*history.StoreError](err)
	return ok && fault.Fault == history.Away
}

// close gives the store back. Nothing is open afterwards, and nothing opens any more.
func (r *record) close() error {
	r.turn <- struct{}{}
	defer func() { <-r.turn }()
	r.closed = true
	if r.store == nil {
		return nil
	}
	err := r.store.Close()
	r.store, r.book = nil, nil
	return err
}
