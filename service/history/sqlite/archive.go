package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// KeepRuleSet stores the files of a set under its content hash.
func (s *Store) KeepRuleSet(ctx context.Context, hash string, files []byte, at time.Time) error {
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		return w.exec(ctx, "insert into rule_sets (hash, files, kept_at) values (?, ?, ?) on conflict (hash) do nothing",
			hash, string(files), at.UnixMicro())
	}))
}

// RuleSet gives the files of a set.
func (s *Store) RuleSet(ctx context.Context, hash string) ([]byte, error) {
	var files []byte
	err := s.reads.QueryRowContext(ctx, "select files from rule_sets where hash = ?", hash).Scan(&files)
	if errors.Is(err, sql.ErrNoRows) {
		err = &history.NotFoundError{What: "rule set", ID: hash}
	}
	return files, s.fault(err)
}
