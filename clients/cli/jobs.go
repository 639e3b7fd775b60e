package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// job is the group of commands about jobs that last.
func (p *program) job() *cobra.Command {
	return group("job", "Keep a job from its booking to the hand-over",
		"A job is one visit of one vehicle: booked, inspected, tried, planned, worked, finished, handed over. Everything that is\n"+
			"recorded in it stays; a mistake is mended by a correction that says why. In all commands JOB is its id.\n\n"+
			"In order:  job new, record (an inspection), trial, plan, progress, record (readings), finish, hand-over\n"+
			"At any time: job show, book, calendar, events, watch, correct, export",
		p.newJob(), p.listJobs(), p.showJob(), p.recordInJob(), p.recordTrial(), p.adviseJob(), p.planJob(), p.progressJob(),
		p.endJob(finishing), p.endJob(handingOver), p.endJob(cancelling), p.correctJob(), p.bookJob(), p.jobCalendar(), p.jobEvents(), p.watchJob(), p.exportJob(), p.importJobs())
}

func (p *program) newJob() *cobra.Command {
	var k kept
	var id, label, notes, on string
	cmd := &cobra.Command{
		Use:     "new VEHICLE",
		Short:   "Book a job for a vehicle",
		Example: "  glossladder job new blue-estate --id blue-estate-spring --label \"spring visit\" --on \"2026-05-04 09:00\"",
		Args:    oneNamed("vehicle"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			booked, err := timeFlag("--on", on)
			if err != nil {
				return err
			}
			job := &glossladderv1.Job{Vehicle: named("vehicles", args[0]), Label: label, Notes: notes, BookTime: booked}
			var made *glossladderv1.Job
			err = p.record(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				made, err = keeper.CreateJob(ctx, &glossladderv1.CreateJobRequest{Job: job, JobId: id, RequestId: k.id(), RecordedBy: k.by})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder vehicle list")
			}
			if p.asJSON() {
				return p.json(made)
			}
			fmt.Fprintf(p.out, "Job %s is booked.\nNext: glossladder job record %s INSPECTION.yaml\n", idOf(made.GetName()), idOf(made.GetName()))
			return nil
		}),
	}
	cmd.Flags().StringVar(&id, "id", "", "the last part of its name: small letters, digits and single hyphens (left out: one is made up)")
	cmd.Flags().StringVar(&label, "label", "", "what the shop calls it")
	cmd.Flags().StringVar(&notes, "notes", "", "for the shop's own use; no personal data")
	cmd.Flags().StringVar(&on, "on", "", "when the vehicle is expected, as 2026-05-04 or \"2026-05-04 09:00\"")
	cmd.Flags().StringVar(&k.by, "by", "", "who records it, as the shop says it")
	k.once(cmd)
	p.keeps(cmd)
	return cmd
}

func (p *program) listJobs() *cobra.Command {
	var vehicle string
	var stages []string
	var limit int
	cmd := &cobra.Command{
		Use:     "list",
		Short:   "List jobs, the newest first",
		Example: "  glossladder job list\n  glossladder job list --stage in-work,planned\n  glossladder job list --vehicle blue-estate",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			request := &glossladderv1.ListJobsRequest{}
			if vehicle != "" {
				request.Vehicle = named("vehicles", vehicle)
			}
			for _, word := range stages {
				stage, err := intake.Word(word, glossladderv1.JobStage_JOB_STAGE_UNSPECIFIED.Descriptor())
				if err != nil {
					return &usageError{"--stage: " + err.Error()}
				}
				request.Stages = append(request.Stages, glossladderv1.JobStage(stage))
			}
			if limit < 1 {
				return &usageError{fmt.Sprintf("--limit %d: it is a number from 1", limit)}
			}
			all, err := p.jobPages(cmd.Context(), request, limit)
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(all)
			}
			return page.Jobs(p.out, all.GetJobs(), all.GetNextPageToken() != "", zone(), p.style())
		}),
	}
	cmd.Flags().StringVar(&vehicle, "vehicle", "", "only this vehicle's")
	cmd.Flags().StringSliceVar(&stages, "stage", nil, "only those in one of these stages, with commas between: booked, inspected, trial, planned, in-work, finished, handed-over, cancelled")
	cmd.Flags().IntVar(&limit, "limit", 50, "at most so many")
	p.keeps(cmd)
	return cmd
}

// jobPages lists up to limit jobs.
func (p *program) jobPages(ctx context.Context, request *glossladderv1.ListJobsRequest, limit int) (*glossladderv1.ListJobsResponse, error) {
	all := &glossladderv1.ListJobsResponse{}
	err := p.jobs(ctx, func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
		for more := true; more; more = request.GetPageToken() != "" && len(all.GetJobs()) < limit {
			request.PageSize = int32(min(limit-len(all.GetJobs()), fullPage)) //nolint:gosec // up to a full page
			page, err := keeper.ListJobs(ctx, request)
			if err != nil {
				return err
			}
			all.Jobs = append(all.Jobs, page.GetJobs()...)
			request.PageToken, all.NextPageToken = page.GetNextPageToken(), page.GetNextPageToken()
		}
		return nil
	})
	return all, err
}

func (p *program) showJob() *cobra.Command {
	var panel string
	cmd := &cobra.Command{
		Use:   "show JOB",
		Short: "Show a job: its stage, its panels, what was promised and what was seen",
		Args:  oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			var job *glossladderv1.Job
			var vehicle *glossladderv1.VehicleRecord
			var film *glossladderv1.VehicleFilm
			err := p.jobs(cmd.Context(), func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				if job, err = keeper.GetJob(ctx, &glossladderv1.GetJobRequest{Name: named("jobs", args[0])}); err != nil || p.asJSON() {
					return err
				}
				if vehicle, err = keeper.GetVehicle(ctx, &glossladderv1.GetVehicleRequest{Name: job.GetVehicle()}); err != nil {
					return err
				}
				film, err = keeper.GetVehicleFilm(ctx, &glossladderv1.GetVehicleFilmRequest{Name: job.GetVehicle()})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			if panel != "" {
				if err := onlyPanel(job, panel); err != nil {
					return err
				}
			}
			if p.asJSON() {
				return p.json(job)
			}
			return page.Job(p.out, job, vehicle, film, zone(), p.style())
		}),
	}
	cmd.Flags().StringVar(&panel, "panel", "", "only this panel")
	p.keeps(cmd)
	return cmd
}

// onlyPanel leaves one panel of a job.
func onlyPanel(job *glossladderv1.Job, panel string) error {
	var ids []string
	for _, found := range job.GetPanels() {
		if found.GetPanelId() == panel {
			job.Panels = []*glossladderv1.JobPanel{found}
			return nil
		}
		ids = append(ids, found.GetPanelId())
	}
	return fmt.Errorf("the job has no panel %s; it has %s", panel, strings.Join(ids, ", "))
}
