package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	lib "modernc.org/sqlite/lib"

	"github.com/glossladder/glossladder/service/history"
)

// AddReportLink stores a new link and forgets those that have expired by then.
func (s *Store) AddReportLink(ctx context.Context, l history.ReportLink) error {
	setting, err := json.Marshal(l.Setting)
	if err != nil {
		return fmt.Errorf("encode report link: %w", err)
	}
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		if err := w.exec(ctx, "delete from report_links where expires_at <= ?", l.CreatedAt.UnixMicro()); err != nil {
			return err
		}
		err := w.exec(ctx, "insert into report_links (id, job_id, token_hash, setting, created_at, expires_at) values (?, ?, ?, ?, ?, ?)",
			l.ID, l.Job, l.TokenHash, string(setting), l.CreatedAt.UnixMicro(), l.ExpiresAt.UnixMicro())
		switch {
		case breaks(err, lib.SQLITE_CONSTRAINT_PRIMARYKEY) || breaks(err, lib.SQLITE_CONSTRAINT_UNIQUE):
			return &history.ExistsError{What: "report link", ID: l.ID}
		case breaks(err, lib.SQLITE_CONSTRAINT_FOREIGNKEY):
			return &history.NotFoundError{What: "job", ID: l.Job}
		}
		return err
	}))
}

const reportLinkColumns = "id, job_id, token_hash, setting, created_at, expires_at"

func readReportLink(from row) (l history.ReportLink, err error) {
	var setting []byte
	var created, expires int64
	if err := from.Scan(&l.ID, &l.Job, &l.TokenHash, &setting, &created, &expires); err != nil {
		return l, err
	}
	l.CreatedAt, l.ExpiresAt = time.UnixMicro(created).UTC(), time.UnixMicro(expires).UTC()
	return l, json.Unmarshal(setting, &l.Setting)
}

// ReportLinkOf finds the link of a token's hash.
func (s *Store) ReportLinkOf(ctx context.Context, tokenHash string, now time.Time) (history.ReportLink, error) {
	l, err := readReportLink(s.reads.QueryRowContext(ctx,
		"select "+reportLinkColumns+" from report_links where token_hash = ? and expires_at > ?", tokenHash, now.UnixMicro()))
	if errors.Is(err, sql.ErrNoRows) {
		err = &history.NotFoundError{What: "report link", ID: "of this token"}
	}
	return l, s.fault(err)
}

// ReportLinksTo gives the links to the report of a job.
func (s *Store) ReportLinksTo(ctx context.Context, job string, now time.Time, limit int) ([]history.ReportLink, error) {
	return collect(ctx, s, readReportLink,
		"select "+reportLinkColumns+" from report_links where job_id = ? and expires_at > ? order by created_at desc, id desc limit ?", job, now.UnixMicro(), limit)
}

// RemoveReportLink removes a link.
func (s *Store) RemoveReportLink(ctx context.Context, id string) error {
	return s.changeOne(ctx, "report link", id, "delete from report_links where id = ?", id)
}
