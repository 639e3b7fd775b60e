package rpc

import (
	"bytes"
	"context"
	"fmt"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// ReportServer serves ReportService.
type ReportServer struct {
	glossladderv1.UnimplementedReportServiceServer
	record JobRecord
	now    func() time.Time
}

// NewReportServer serves from a record.
func NewReportServer(record JobRecord) *ReportServer {
	return &ReportServer{record: record, now: time.Now}
}

// GetReport gives the report of a job as it stands.
func (s *ReportServer) GetReport(ctx context.Context, req *glossladderv1.GetReportRequest) (*glossladderv1.Report, error) {
	var wrong faults
	id := wrong.id("name", jobs, req.GetName())
	set := wrong.setting("", history.ReportSetting{
		Locale: req.GetLocale(), Paper: vocabulary.WordOf(req.GetPaper()), Heading: req.GetHeading(), TimeZone: req.GetTimeZone(),
	})
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	out, err := s.report(ctx, id, set, req.GetFormat())
	if err != nil {
		return nil, statusOf(err, "")
	}
	return out, nil
}

// setting is how a report is set, its words looked up.
type setting struct {
	language *words.Language
	zone     *time.Location
	paper    sheet.Paper
	heading  string
}

// setting looks up a setting's words; field is the path of the setting in the request, with its dot.
func (v *faults) setting(field string, s history.ReportSetting) setting {
	out := setting{zone: time.UTC, paper: sheet.A4, heading: s.Heading}
	var err error
	if out.language, err = words.For(s.Locale); err != nil {
		v.add(field+"locale", err.Error())
		return out
	}
	if s.TimeZone != "" {
		if s.TimeZone == "Local" {
			v.add(field+"time_zone", `"Local" is the zone of whoever asks, which the service does not know; name it, such as Europe/Vienna`)
		} else if out.zone, err = time.LoadLocation(s.TimeZone); err != nil {
			v.add(field+"time_zone", fmt.Sprintf("%q is no time zone of the tz database; one is Europe/Vienna", s.TimeZone))
		}
	}
	if s.Paper == "letter" || s.Paper == "" && out.language.Tag() == "en-US" {
		out.paper = sheet.Letter
	}
	return out
}

// report makes a report and writes it.
func (s *ReportServer) report(ctx context.Context, id string, set setting, format glossladderv1.ReportFormat) (*glossladderv1.Report, error) {
	store, book, err := s.record.Open(ctx)
	if err != nil {
		return nil, err
	}
	job, err := book.Job(ctx, id)
	if err != nil {
		return nil, err
	}
	vehicle, err := store.Vehicle(ctx, job.Vehicle)
	if err != nil {
		return nil, err
	}
	lives, err := book.Life(ctx, job.Vehicle, id)
	if err != nil {
		return nil, err
	}
	made, err := report.Make(report.Given{Job: job, Vehicle: vehicle, Earlier: lives, Documents: reportDocuments{}, Zone: set.zone})
	if err != nil {
		return nil, fmt.Errorf("report of job %s: %w", id, err)
	}
	page := made.Sheet(set.language, report.Options{Heading: set.heading, Paper: set.paper})
	out := &glossladderv1.Report{Job: jobs + "/" + id, Complete: made.Complete()}
	var content bytes.Buffer
	if format == glossladderv1.ReportFormat_REPORT_FORMAT_TEXT {
		out.MediaType, out.FileName = "text/plain; charset=utf-8", id+".txt"
		err = page.Plain(&content)
	} else {
		out.MediaType, out.FileName = "text/html; charset=utf-8", id+".html"
		err = page.HTML(&content)
	}
	out.Content = content.Bytes()
	return out, err
}
