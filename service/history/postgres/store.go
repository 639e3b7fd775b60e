// Package postgres keeps vehicles and jobs in a PostgreSQL database, which several programs on several machines may share.
//
// Each write is one statement and so one transaction, or one of few statements where a bay is booked as well, which the server
// makes durable before it answers. A connection that was lost is made again: reads, writes that never left, and writes with a
// request id are sent again; of any other write it is said that its outcome is not known.
//
// The package imports no contract and knows no stage of a job.
package postgres

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"github.com/jackc/pgx/v5/pgxpool"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/migrations"
)

// Store is one database. Make it with Open and give it back with Close.
type Store struct {
	pool  *pgxpool.Pool
	where string

	makeJob, moveJob, makeVehicle, changeVehicle statement
}

// Open connects to a database by its URL, such as postgres://shop@db.example/glossladder, and brings it to the present shape. It
// keeps to the URL's search_path, so that several shops may share a database. Errors are [*history.StoreError], or about the URL.
func Open(ctx context.Context, url string) (*Store, error) {
	config, err := pgxpool.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("the database's URL: %w", err) // the driver leaves the password out
	}
	if _, said := config.ConnConfig.RuntimeParams["synchronous_commit"]; !said {
		config.ConnConfig.RuntimeParams["synchronous_commit"] = "on"
	}
	if _, said := config.ConnConfig.RuntimeParams["application_name"]; !said {
		config.ConnConfig.RuntimeParams["application_name"] = "glossladder"
	}
	config.MaxConns = max(config.MaxConns, int32(4*runtime.NumCPU()))
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("the database's URL: %w", err)
	}
	at := config.ConnConfig
	s := &Store{
		pool: pool, where: fmt.Sprintf("postgres://%s:%d/%s", at.Host, at.Port, at.Database),
		makeJob: makeStatement(makeJob + addEvents + addTraces + keepRequest), moveJob: makeStatement(moveJob + addEvents + addTraces + keepRequest),
		makeVehicle: makeStatement(makeVehicle + keepRequest), changeVehicle: makeStatement(changeVehicle + keepRequest),
	}
	if err := s.prepare(ctx); err != nil {
		pool.Close()
		return nil, s.fault(err)
	}
	return s, nil
}

// prepare runs the migrations that are still to do. Of several programs that start at once, one does and the others wait.
func (s *Store) prepare(ctx context.Context) (err error) {
	db := stdlib.OpenDBFromPool(s.pool)
	defer func() { err = errors.Join(err, db.Close()) }()
	locker, err := lock.NewPostgresSessionLocker()
	if err != nil {
		return fmt.Errorf("prepare the migrations' lock: %w", err)
	}
	provider, err := goose.NewProvider(goose.DialectPostgres, db, migrations.PostgreSQL(),
		goose.WithSessionLocker(locker), goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	have, known, err := provider.GetVersions(ctx)
	if err != nil {
		return err
	}
	if have > known {
		return &history.StoreError{Fault: history.Newer, Err: fmt.Errorf("it is at step %d, this program knows %d", have, known)}
	}
	if have < known {
		_, err = provider.Up(ctx)
	}
	return err
}

// Close waits for calls under way and closes all connections.
func (s *Store) Close() error {
	s.pool.Close()
	return nil
}
