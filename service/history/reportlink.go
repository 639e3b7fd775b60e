package history

import (
	"context"
	"time"
)

// ReportLink lets whoever has its token read the report of one job. The token itself is kept nowhere.
type ReportLink struct {
	ID  string
	Job string
	// TokenHash is the hash of its token.
	TokenHash string
	Setting   ReportSetting
	CreatedAt time.Time
	ExpiresAt time.Time
}

// ReportSetting is how the report of a link is set. Empty: as usual.
type ReportSetting struct {
	Locale   string `json:"locale,omitempty"`
	Paper    string `json:"paper,omitempty"`
	Heading  string `json:"heading,omitempty"`
	TimeZone string `json:"time_zone,omitempty"`
}

// ReportLinks keeps links to reports. One that has expired is as good as gone, and the store may forget it.
type ReportLinks interface {
	// AddReportLink stores a new link, or gives an [*ExistsError], or a [*NotFoundError] of the job.
	AddReportLink(ctx context.Context, l ReportLink) error
	// ReportLinkOf finds the link of a token's hash that has not expired by now, or gives a [*NotFoundError].
	ReportLinkOf(ctx context.Context, tokenHash string, now time.Time) (ReportLink, error)
	// ReportLinksTo gives up to limit links to the report of a job that have not expired by now, the newest first.
	ReportLinksTo(ctx context.Context, job string, now time.Time, limit int) ([]ReportLink, error)
	// RemoveReportLink removes a link, or gives a [*NotFoundError].
	RemoveReportLink(ctx context.Context, id string) error
}
