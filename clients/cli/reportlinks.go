package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/types/known/timestamppb"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) reportLink() *cobra.Command {
	f := reportFlags{size: choice{value: "auto", words: []string{"auto", "a4", "letter"}}}
	var until string
	cmd := &cobra.Command{
		Use:   "link JOB",
		Short: "Make a link that shows the record to whoever has it, until it expires",
		Long: "Makes a link to the record of a job. Whoever has the link can read the record, and nothing else, until its time is over or it is\n" +
			"revoked. The link is shown once: only a hash of it is kept.",
		Example: "  glossladder report link blue-estate-spring --until 2026-06-30",
		Args:    oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			link := &glossladderv1.ReportLink{Setting: f.fill()}
			if until != "" {
				at, err := intake.Time(until)
				if err != nil {
					return &usageError{"--until " + err.Error()}
				}
				link.ExpireTime = timestamppb.New(at)
			}
			var made *glossladderv1.ReportLink
			err := p.reports(cmd.Context(), func(ctx context.Context, from glossladderv1.ReportServiceClient) (err error) {
				made, err = from.CreateReportLink(ctx, &glossladderv1.CreateReportLinkRequest{Job: named("jobs", args[0]), ReportLink: link})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			if p.asJSON() {
				return p.json(made)
			}
			fmt.Fprintf(p.out, "%s\n", made.GetPath())
			fmt.Fprintf(p.err, "This is the path on the shop's service, after its address. It works until %s, and is not shown again.\nRevoke it: glossladder report revoke %s\n",
				made.GetExpireTime().AsTime().In(zone()).Format(linkTime), idOf(made.GetName()))
			return nil
		}),
	}
	cmd.Flags().StringVar(&until, "until", "", "when it stops working, as 2026-06-30 or \"2026-06-30 18:00\" (left out: in 30 days)")
	f.settings(cmd)
	p.keeps(cmd)
	return cmd
}

// linkTime is how the end of a link is told.
const linkTime = "2006-01-02 15:04"

func (p *program) reportLinks() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "links JOB",
		Short: "List the links to a record that still work",
		Args:  oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			var found *glossladderv1.ListReportLinksResponse
			err := p.reports(cmd.Context(), func(ctx context.Context, from glossladderv1.ReportServiceClient) (err error) {
				found, err = from.ListReportLinks(ctx, &glossladderv1.ListReportLinksRequest{Job: named("jobs", args[0])})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			if p.asJSON() {
				return p.json(found)
			}
			if len(found.GetReportLinks()) == 0 {
				fmt.Fprintln(p.out, "No link to this record works.")
			}
			for _, link := range found.GetReportLinks() {
				fmt.Fprintf(p.out, "%s  made %s, works until %s, %s\n", idOf(link.GetName()),
					link.GetCreateTime().AsTime().In(zone()).Format(linkTime), link.GetExpireTime().AsTime().In(zone()).Format(linkTime), link.GetSetting().GetLocale())
			}
			return nil
		}),
	}
	p.keeps(cmd)
	return cmd
}

func (p *program) revokeReportLink() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "revoke LINK",
		Short: "Revoke a link to a record: from then on it leads nowhere",
		Args:  oneNamed("link"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			err := p.reports(cmd.Context(), func(ctx context.Context, from glossladderv1.ReportServiceClient) error {
				_, err := from.DeleteReportLink(ctx, &glossladderv1.DeleteReportLinkRequest{Name: named("reportLinks", args[0])})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder report links JOB")
			}
			fmt.Fprintf(p.out, "Link %s is revoked.\n", idOf(named("reportLinks", args[0])))
			return nil
		}),
	}
	p.reachable(cmd)
	p.dataFlag(cmd)
	return cmd
}
