package cli

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"

	"github.com/glossladder/glossladder/clients/cli/paper"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// reportFlags say how a report is written.
type reportFlags struct {
	format, size choice
	out          string
	browser      string
	setting      glossladderv1.ReportSetting
}

// report makes the record that the owner is handed.
func (p *program) report() *cobra.Command {
	f := reportFlags{
		format: choice{value: "text", words: []string{"html", "text", "pdf"}}, size: choice{value: "auto", words: []string{"auto", "a4", "letter"}},
	}
	cmd := &cobra.Command{
		Use:   "report JOB",
		Short: "Make the record of a job that its owner is handed",
		Long: "Makes the record of a job for the owner of the vehicle: what was found, what was done and why, gloss and haze before and after,\n" +
			"the paint that was taken and what is left, what was left on purpose, and care. All of it comes from what is recorded in the job.\n\n" +
			"HTML is set for paper: open it in a browser and print it. PDF is printed by Chromium, if it is installed.",
		Example: "  glossladder report blue-estate-spring\n" +
			"  glossladder report blue-estate-spring --format pdf --out spring.pdf --heading \"The shop\"\n" +
			"  glossladder report blue-estate-spring --format html --locale de-AT --out spring.html",
		Args: oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.unknownTo(p.writeReport(cmd.Context(), &f, args[0]), "glossladder job list")
		}),
	}
	cmd.Flags().Var(&f.format, "format", "what to write it as: text, html, pdf")
	cmd.Flags().StringVar(&f.out, "out", "", "file to write to (left out: standard output; pdf: the job's name in this folder)")
	cmd.Flags().StringVar(&f.browser, "browser", "", "program to print PDF with (left out: Chromium or its kin, as installed)")
	f.settings(cmd)
	p.reachable(cmd)
	p.dataFlag(cmd)
	cmd.AddCommand(p.reportLink(), p.reportLinks(), p.revokeReportLink())
	return cmd
}

// settings adds the flags that a link has too.
func (f *reportFlags) settings(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.setting.Locale, "locale", "en", "language and country: en, en-GB, en-US, de, de-DE, de-AT, de-CH")
	cmd.Flags().Var(&f.size, "paper", "size of the paper: a4, letter, auto (by the locale)")
	cmd.Flags().StringVar(&f.setting.Heading, "heading", "", "what stands over the title, such as the shop's name")
	cmd.Flags().StringVar(&f.setting.TimeZone, "time-zone", "", "zone in which days are told, such as Europe/Vienna (left out: this machine's, if it has a name; else UTC)")
}

// fill turns the flags into a setting.
func (f *reportFlags) fill() *glossladderv1.ReportSetting {
	f.setting.Paper = glossladderv1.PaperSize(glossladderv1.PaperSize_value["PAPER_SIZE_"+strings.ToUpper(f.size.value)])
	if f.setting.TimeZone == "" {
		f.setting.TimeZone = zoneName()
	}
	return &f.setting
}

// zoneName is the name of this machine's time zone in the tz database; "" if it cannot be told.
func zoneName() string {
	name := os.Getenv("TZ")
	if name == "" {
		link, _ := os.Readlink("/etc/localtime")
		_, name, _ = strings.Cut(link, "/zoneinfo/")
	}
	if _, err := time.LoadLocation(name); err != nil || name == "Local" {
		return ""
	}
	return name
}

func (p *program) writeReport(ctx context.Context, f *reportFlags, job string) error {
	browser := ""
	if f.format.value == "pdf" {
		var err error
		if browser, err = paper.Browser(f.browser); err != nil {
			return err // before the work, not after it
		}
	}
	set := f.fill()
	format := glossladderv1.ReportFormat_REPORT_FORMAT_HTML
	if f.format.value == "text" {
		format = glossladderv1.ReportFormat_REPORT_FORMAT_TEXT
	}
	var made *glossladderv1.Report
	err := p.reports(ctx, func(ctx context.Context, from glossladderv1.ReportServiceClient) (err error) {
		made, err = from.GetReport(ctx, &glossladderv1.GetReportRequest{
			Name: named("jobs", job), Format: format, Locale: set.GetLocale(), Paper: set.GetPaper(), Heading: set.GetHeading(), TimeZone: set.GetTimeZone(),
		})
		return err
	})
	if err != nil {
		return err
	}
	content := made.GetContent()
	if browser != "" {
		if content, err = paper.PDF(ctx, browser, content); err != nil {
			return err
		}
		if f.out == "" {
			f.out = strings.TrimSuffix(made.GetFileName(), ".html") + ".pdf"
		}
	}
	if f.out == "" || f.out == fromStdin {
		_, err = p.out.Write(content)
		return err
	}
	if err := replace(f.out, content); err != nil {
		return err
	}
	fmt.Fprintln(p.err, f.out)
	return nil
}

// replace writes a file whole or not at all.
func replace(name string, content []byte) error {
	file, err := os.CreateTemp(filepath.Dir(name), ".report-*")
	if err != nil {
		return err
	}
	if _, err = file.ReadFrom(bytes.NewReader(content)); err == nil {
		err = file.Sync()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(file.Name(), name)
	}
	if err != nil {
		_ = os.Remove(file.Name())
	}
	return err
}

// reports calls the maker of reports.
func (p *program) reports(ctx context.Context, call func(context.Context, glossladderv1.ReportServiceClient) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewReportServiceClient(connection))
	})
}
