package postgres

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

// errNothing undoes a transaction whose writing statement wrote nothing.
var errNothing = errors.New("nothing was written")

// claiming runs a writing statement and gives the job its bay time, in one transaction. Rows of jobs are always locked before
// those of bays, so that two who claim never wait for each other.
func (s *Store) claiming(ctx context.Context, text statement, args named, b *history.Batch) (rows int64, err error) {
	err = pgx.BeginFunc(ctx, s.pool, func(tx pgx.Tx) error {
		if err := tx.QueryRow(ctx, text.text, text.args(args)...).Scan(&rows); err != nil {
			return err
		}
		if rows == 0 {
			return errNothing
		}
		if b.Claim.Bay != nil {
			if err := moveBay(ctx, tx, b.Claim); err != nil {
				return err
			}
		}
		return hold(ctx, tx, b.After.ID, b.Claim.Bay)
	})
	if errors.Is(err, errNothing) {
		return 0, nil
	}
	return rows, err
}

// moveBay moves the bay on from the revision that was seen. Whoever comes second waits at the bay's row until the first has
// committed, and then finds another revision.
func moveBay(ctx context.Context, tx pgx.Tx, c *history.Claim) error {
	text, args := "insert into bays (id, revision) values ($1, 1) on conflict (id) do update set revision = bays.revision + 1", []any{c.Bay.ID}
	switch {
	case c.Unseen:
	case c.Seen == 0:
		text = "insert into bays (id, revision) values ($1, 1) on conflict (id) do nothing"
	default:
		text, args = "update bays set revision = revision + 1 where id = $1 and revision = $2", append(args, c.Seen)
	}
	done, err := tx.Exec(ctx, text, args...)
	if err != nil || done.RowsAffected() == 1 {
		return err
	}
	conflict := &history.ConflictError{What: "bay", ID: c.Bay.ID, Expected: c.Seen}
	err = tx.QueryRow(ctx, "select revision from bays where id = $1", c.Bay.ID).Scan(&conflict.Have)
	if err != nil && !errors.Is(err, pgx.ErrNoRows) {
		return err
	}
	return conflict
}

// hold puts the job's bay time in the place of what it held before.
func hold(ctx context.Context, tx pgx.Tx, job string, bay *history.Bay) error {
	if _, err := tx.Exec(ctx, "delete from bay_holds where job_id = $1", job); err != nil || bay == nil {
		return err
	}
	starts, ends := make([]int64, len(bay.Blocks)), make([]int64, len(bay.Blocks))
	for i, block := range bay.Blocks {
		starts[i], ends[i] = block.Start.UnixMicro(), block.End.UnixMicro()
	}
	_, err := tx.Exec(ctx, `insert into bay_holds (job_id, bay_id, start_at, end_at)
		select $1, $2, b.* from unnest($3::bigint[], $4::bigint[]) b`, job, bay.ID, starts, ends)
	return err
}

// Diary gives what jobs hold of a bay. The revision is read first: what is booked between the two reads is then of a later one.
func (s *Store) Diary(ctx context.Context, bay string, since time.Time) (*history.Diary, error) {
	out := &history.Diary{Bay: bay}
	found, err := collect(ctx, s, pgx.RowTo[int64], "select revision from bays where id = $1", bay)
	if err != nil || len(found) == 0 {
		return out, err
	}
	out.Revision = found[0]
	out.Held, err = collect(ctx, s, readHeld, `select job_id, start_at, end_at from bay_holds where bay_id = $1 and end_at > $2
		order by start_at, job_id`, bay, since.UnixMicro())
	return out, err
}

func readHeld(row pgx.CollectableRow) (h history.Held, err error) {
	var start, end int64
	err = row.Scan(&h.Job, &start, &end)
	h.Start, h.End = time.UnixMicro(start).UTC(), time.UnixMicro(end).UTC()
	return h, err
}
