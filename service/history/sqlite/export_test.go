package sqlite

import "context"

// LimitPages lets the file grow no further than so many pages, as a full disk would.
func (s *Store) LimitPages(ctx context.Context, most string) error {
	return s.writer.do(ctx, func(ctx context.Context, w *session) error {
		var now int64
		return w.row(ctx, "pragma max_page_count = "+most).Scan(&now)
	})
}
