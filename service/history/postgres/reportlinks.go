package postgres

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

// AddReportLink stores a new link and forgets those that have expired by then.
func (s *Store) AddReportLink(ctx context.Context, l history.ReportLink) error {
	setting, err := json.Marshal(l.Setting)
	if err != nil {
		return fmt.Errorf("encode report link: %w", err)
	}
	if _, err := s.change(ctx, "delete from report_links where expires_at <= $1", l.CreatedAt.UnixMicro()); err != nil {
		return err
	}
	_, err = s.change(ctx, "insert into report_links (id, job_id, token_hash, setting, created_at, expires_at) values ($1, $2, $3, $4, $5, $6)",
		l.ID, l.Job, l.TokenHash, string(setting), l.CreatedAt.UnixMicro(), l.ExpiresAt.UnixMicro())
	switch {
	case broke(err, uniqueBroken):
		return &history.ExistsError{What: "report link", ID: l.ID}
	case broke(err, foreignKeyBroken):
		return &history.NotFoundError{What: "job", ID: l.Job}
	}
	return err
}

const reportLinkColumns = "id, job_id, token_hash, setting, created_at, expires_at"

func readReportLink(row pgx.CollectableRow) (l history.ReportLink, err error) {
	var setting string
	var created, expires int64
	if err := row.Scan(&l.ID, &l.Job, &l.TokenHash, &setting, &created, &expires); err != nil {
		return l, err
	}
	l.CreatedAt, l.ExpiresAt = time.UnixMicro(created).UTC(), time.UnixMicro(expires).UTC()
	return l, json.Unmarshal([]byte(setting), &l.Setting)
}

// ReportLinkOf finds the link of a token's hash.
func (s *Store) ReportLinkOf(ctx context.Context, tokenHash string, now time.Time) (history.ReportLink, error) {
	found, err := collect(ctx, s, readReportLink,
		"select "+reportLinkColumns+" from report_links where token_hash = $1 and expires_at > $2", tokenHash, now.UnixMicro())
	if err != nil {
		return history.ReportLink{}, err
	}
	if len(found) == 0 {
		return history.ReportLink{}, &history.NotFoundError{What: "report link", ID: "of this token"}
	}
	return found[0], nil
}

// ReportLinksTo gives the links to the report of a job.
func (s *Store) ReportLinksTo(ctx context.Context, job string, now time.Time, limit int) ([]history.ReportLink, error) {
	return collect(ctx, s, readReportLink, "select "+reportLinkColumns+
		" from report_links where job_id = $1 and expires_at > $2 order by created_at desc, id desc limit $3", job, now.UnixMicro(), limit)
}

// RemoveReportLink removes a link.
func (s *Store) RemoveReportLink(ctx context.Context, id string) error {
	return s.changeOne(ctx, "report link", id, "delete from report_links where id = $1", id)
}
