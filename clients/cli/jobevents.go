package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/signal"
	"strconv"
	"syscall"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

func (p *program) jobEvents() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "events JOB",
		Short: "List what happened in a job, in order, with its corrections",
		Args:  oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			var all *glossladderv1.ListJobEventsResponse
			err := p.jobs(cmd.Context(), func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				all, err = eventsOf(ctx, keeper, args[0])
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			if p.asJSON() {
				return p.json(all)
			}
			return page.Events(p.out, all.GetEvents(), zone(), p.style())
		}),
	}
	p.keeps(cmd)
	return cmd
}

// eventsOf lists all events of a job.
func eventsOf(ctx context.Context, keeper glossladderv1.JobServiceClient, job string) (*glossladderv1.ListJobEventsResponse, error) {
	all := &glossladderv1.ListJobEventsResponse{}
	for token, more := "", true; more; more = token != "" {
		page, err := keeper.ListJobEvents(ctx, &glossladderv1.ListJobEventsRequest{Parent: named("jobs", job), PageSize: eventPage, PageToken: token})
		if err != nil {
			return nil, err
		}
		all.Events = append(all.Events, page.GetEvents()...)
		token = page.GetNextPageToken()
	}
	return all, nil
}

// eventPage keeps a page of events with whole decisions in them well under the largest message.
const eventPage = 100

func (p *program) watchJob() *cobra.Command {
	var after int64
	cmd := &cobra.Command{
		Use:   "watch JOB",
		Short: "Tell what happens in a job while it happens, until Ctrl-C or the hand-over",
		Args:  oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			ctx, stop := signal.NotifyContext(cmd.Context(), syscall.SIGINT, syscall.SIGTERM)
			defer stop()
			err := p.watch(ctx, named("jobs", args[0]), after)
			if ctx.Err() != nil {
				return nil // it was told to end
			}
			return p.unknownTo(err, "glossladder job list")
		}),
	}
	cmd.Flags().Int64Var(&after, "after", 0, "only events after this one")
	p.keeps(cmd)
	return cmd
}

// watch prints events as they come, for as long as the job lasts.
func (p *program) watch(ctx context.Context, job string, after int64) error {
	return p.carry(ctx, func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
		ctx, cancel := context.WithCancel(ctx)
		defer cancel()
		stream, err := keeper.WatchJob(ctx, &glossladderv1.WatchJobRequest{Name: job, AfterSequence: after})
		if err != nil {
			return err
		}
		for {
			told, err := stream.Recv()
			if errors.Is(err, io.EOF) {
				return nil
			}
			if err == nil {
				err = p.told(told)
			}
			if err != nil {
				return err
			}
		}
	})
}

func (p *program) told(told *glossladderv1.WatchJobResponse) error {
	switch {
	case p.asJSON():
		return p.json(told)
	case told.GetEvent() != nil:
		return page.Events(p.out, []*glossladderv1.JobEvent{told.GetEvent()}, zone(), p.style())
	}
	return nil
}

func (p *program) correctJob() *cobra.Command {
	var k kept
	var why string
	var withdraw, overlap bool
	input := newInput()
	cmd := &cobra.Command{
		Use:   "correct JOB EVENT [FILE|-]",
		Short: "Put something else in the place of an event, or withdraw it, and say why",
		Long: "EVENT is its number, as job events lists it. FILE holds what is true in its place: an inspection, readings or a trial as for\n" +
			"job record and job trial. What was recorded first stays on record.",
		Example: "  glossladder job correct blue-estate-spring 7 readings.yaml --why \"read on the door, not the bonnet\"\n" +
			"  glossladder job correct blue-estate-spring 7 --withdraw --why \"wrong vehicle\"",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 3 && !(len(args) == 2 && withdraw) || len(args) == 3 && withdraw {
				return &usageError{"name the job, the event and a file with what is true, or --withdraw: " + cmd.Use}
			}
			if why == "" {
				return &usageError{"say --why it was wrong"}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			sequence, err := strconv.ParseInt(args[1], 10, 64)
			if err != nil {
				return &usageError{fmt.Sprintf("%q is no event; name its number, as job events lists it", args[1])}
			}
			correction := &glossladderv1.Correction{Sequence: sequence, Why: why}
			var places *intake.Places
			if len(args) == 3 {
				src, err := p.read(args[2])
				if err != nil {
					return err
				}
				var problems strictyaml.Problems
				if places, problems = correctionFrom(src, input, correction); len(problems) > 0 {
					return allMistakes(problems, places, nil)
				}
			}
			return p.recordCall(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient, entry *glossladderv1.Entry) (*glossladderv1.RecordResponse, error) {
				return keeper.CorrectEvent(ctx, &glossladderv1.CorrectEventRequest{Name: named("jobs", args[0]), Entry: entry, Correction: correction, AllowOverlap: overlap})
			})
		}),
	}
	cmd.Flags().StringVar(&why, "why", "", "what was wrong")
	cmd.Flags().BoolVar(&withdraw, "withdraw", false, "nothing holds in its place")
	cmd.Flags().BoolVar(&overlap, "allow-overlap", false, "let a job that is not cancelled after all have its bay time back whatever other jobs have booked since")
	cmd.Flags().Var(&input.filmUnit, "film-unit", "unit of film thicknesses written without one")
	cmd.Flags().Var(&input.heatUnit, "temperature-unit", "unit of temperatures written without one")
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}

// correctionFrom reads what holds in an event's place.
func correctionFrom(src intake.Source, input *input, into *glossladderv1.Correction) (*intake.Places, strictyaml.Problems) {
	found, places, problems := intake.ForCorrection(src, input.bare())
	switch {
	case len(problems) > 0:
	case found.Inspection != nil:
		into.Instead = &glossladderv1.Correction_Inspection{Inspection: found.Inspection}
	case found.Trial != nil:
		into.Instead = &glossladderv1.Correction_Trial{Trial: found.Trial}
	case found.Progress != nil:
		into.Instead = &glossladderv1.Correction_Progress{Progress: found.Progress}
	default:
		into.Instead = &glossladderv1.Correction_Readings{Readings: found.Readings}
	}
	return places, problems
}
