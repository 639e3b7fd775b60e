package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// claim gives the job the bay time, at the revision of the bay that its writer has seen.
func (w *session) claim(ctx context.Context, job string, c *history.Claim) error {
	if c == nil {
		return nil
	}
	if c.Bay != nil {
		if err := w.moveBay(ctx, c); err != nil {
			return err
		}
	}
	if err := w.exec(ctx, "delete from bay_holds where job_id = ?", job); err != nil || c.Bay == nil {
		return err
	}
	for _, block := range c.Bay.Blocks {
		err := w.exec(ctx, "insert into bay_holds (job_id, start_at, end_at, bay_id) values (?, ?, ?, ?)",
			job, block.Start.UnixMicro(), block.End.UnixMicro(), c.Bay.ID)
		if err != nil {
			return err
		}
	}
	return nil
}

// moveBay moves the bay on from the revision that was seen.
func (w *session) moveBay(ctx context.Context, c *history.Claim) error {
	var have int64
	err := w.row(ctx, "select revision from bays where id = ?", c.Bay.ID).Scan(&have)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return err
	}
	if !c.Unseen && have != c.Seen {
		return &history.ConflictError{What: "bay", ID: c.Bay.ID, Expected: c.Seen, Have: have}
	}
	return w.exec(ctx, "insert into bays (id, revision) values (?, 1) on conflict (id) do update set revision = revision + 1", c.Bay.ID)
}

// Diary gives what jobs hold of a bay. The revision is read first: what is booked between the two reads is then of a later one.
func (s *Store) Diary(ctx context.Context, bay string, since time.Time) (*history.Diary, error) {
	out := &history.Diary{Bay: bay}
	err := s.reads.QueryRowContext(ctx, "select revision from bays where id = ?", bay).Scan(&out.Revision)
	if errors.Is(err, sql.ErrNoRows) {
		return out, nil
	}
	if err == nil {
		out.Held, err = s.held(ctx, bay, since)
	}
	return out, s.fault(err)
}

func (s *Store) held(ctx context.Context, bay string, since time.Time) (out []history.Held, err error) {
	rows, err := s.reads.QueryContext(ctx, `select job_id, start_at, end_at from bay_holds where bay_id = ? and end_at > ?
		order by start_at, job_id`, bay, since.UnixMicro())
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		var h history.Held
		var start, end int64
		if err := rows.Scan(&h.Job, &start, &end); err != nil {
			return nil, err
		}
		h.Start, h.End = time.UnixMicro(start).UTC(), time.UnixMicro(end).UTC()
		out = append(out, h)
	}
	return out, rows.Err()
}
