package rpc

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"
	"time"

	"google.golang.org/protobuf/types/known/emptypb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/vocabulary"
)

const (
	reportLinks = "reportLinks"
	// usualLinkTime is how long a link works unless it says otherwise, longestLinkTime the longest that it may.
	usualLinkTime   = 30 * 24 * time.Hour
	longestLinkTime = 366 * 24 * time.Hour
	// mostLinks are listed.
	mostLinks = 100
)

// CreateReportLink makes a link.
//
// Its token is 130 bits of chance, and the store keeps only its hash: whoever reads the store, or a backup of it, can follow no
// link. A plain hash will do, since nobody can try that many tokens. A signed link would need no store, but could not be revoked
// without one, and its key would open every report at once.
func (s *ReportServer) CreateReportLink(ctx context.Context, req *glossladderv1.CreateReportLinkRequest) (*glossladderv1.ReportLink, error) {
	now := history.Moment(s.now())
	var wrong faults
	asked := req.GetReportLink()
	job := wrong.id("job", jobs, req.GetJob())
	link := history.ReportLink{Job: job, Setting: settingKept(asked.GetSetting()), CreatedAt: now, ExpiresAt: now.Add(usualLinkTime)}
	wrong.setting("report_link.setting.", link.Setting)
	wrong.time("report_link.expire_time", asked.GetExpireTime())
	if at := asked.GetExpireTime(); at != nil {
		link.ExpiresAt = history.Moment(at.AsTime())
		if !link.ExpiresAt.After(now) || link.ExpiresAt.After(now.Add(longestLinkTime)) {
			wrong.add("report_link.expire_time", "must lie ahead, and by no more than 366 days; a new link can be made at any time")
		}
	}
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	token := strings.ToLower(rand.Text())
	link.TokenHash = tokenHash(token)
	err = withNewID("", func(id string) error {
		link.ID = id
		return store.AddReportLink(ctx, link)
	})
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := linkOut(&link)
	out.Path = "/r/" + token
	return out, nil
}

// tokenHash is what is kept of a token.
func tokenHash(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}

// ListReportLinks gives the links of a job that still work.
func (s *ReportServer) ListReportLinks(ctx context.Context, req *glossladderv1.ListReportLinksRequest) (*glossladderv1.ListReportLinksResponse, error) {
	var wrong faults
	job := wrong.id("job", jobs, req.GetJob())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if _, err := store.Job(ctx, job); err != nil {
		return nil, statusOf(err, "")
	}
	found, err := store.ReportLinksTo(ctx, job, s.now(), mostLinks)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListReportLinksResponse{}
	for i := range found {
		out.ReportLinks = append(out.ReportLinks, linkOut(&found[i]))
	}
	return out, nil
}

// DeleteReportLink revokes a link.
func (s *ReportServer) DeleteReportLink(ctx context.Context, req *glossladderv1.DeleteReportLinkRequest) (*emptypb.Empty, error) {
	var wrong faults
	id := wrong.id("name", reportLinks, req.GetName())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if err := store.RemoveReportLink(ctx, id); err != nil {
		return nil, statusOf(err, "")
	}
	return &emptypb.Empty{}, nil
}

// ErrNoLink says that a token leads to no report: it never did, its time is over, or it was revoked. Which, nobody is told.
var ErrNoLink = errors.New("this link leads to no report; ask the shop for a new one")

// Shared gives the report that a token leads to, as HTML. The error is a status, NOT_FOUND with [ErrNoLink].
func (s *ReportServer) Shared(ctx context.Context, token string) (*glossladderv1.Report, error) {
	store, _, err := s.record.Open(ctx)
	if errors.Is(err, ErrNoRecord) {
		return nil, statusOf(ErrNoLink, "")
	}
	if err != nil {
		return nil, statusOf(err, "")
	}
	link, err := store.ReportLinkOf(ctx, tokenHash(strings.ToLower(token)), s.now())
	if is[*history.NotFoundError](err) {
		return nil, statusOf(ErrNoLink, "")
	}
	if err != nil {
		return nil, statusOf(err, "")
	}
	var wrong faults
	set := wrong.setting("", link.Setting)
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	out, err := s.report(ctx, link.Job, set, glossladderv1.ReportFormat_REPORT_FORMAT_HTML)
	if err != nil {
		return nil, statusOf(err, "")
	}
	return out, nil
}

func settingKept(m *glossladderv1.ReportSetting) history.ReportSetting {
	return history.ReportSetting{Locale: m.GetLocale(), Paper: vocabulary.WordOf(m.GetPaper()), Heading: m.GetHeading(), TimeZone: m.GetTimeZone()}
}

func linkOut(l *history.ReportLink) *glossladderv1.ReportLink {
	return &glossladderv1.ReportLink{
		Name: reportLinks + "/" + l.ID, Job: jobs + "/" + l.Job, CreateTime: timeOut(l.CreatedAt), ExpireTime: timeOut(l.ExpiresAt),
		Setting: &glossladderv1.ReportSetting{
			Locale: l.Setting.Locale, Paper: word[glossladderv1.PaperSize](l.Setting.Paper), Heading: l.Setting.Heading, TimeZone: l.Setting.TimeZone,
		},
	}
}
