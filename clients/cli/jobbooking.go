package cli

import (
	"context"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/timestamppb"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// booker calls the service that gives jobs their bay time.
func (p *program) booker(ctx context.Context, call func(context.Context, glossladderv1.BookingServiceClient) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewBookingServiceClient(connection))
	})
}

// slotFlags are what is told of bay time.
type slotFlags struct {
	bay, start, until, work, open, zone, calendar string
	people, gap                                   int32
	overlap                                       bool
}

func (p *program) bookJob() *cobra.Command {
	var k kept
	var f slotFlags
	cmd := &cobra.Command{
		Use:   "book JOB --bay BAY --start TIME",
		Short: "Lay the work of an inspected job into the hours of a bay, or book a fixed time",
		Long: "Reckons how long the work on record takes, and lays it into the hours of the bay from --start on: those of the shop's\n" +
			"catalogue, unless --open says others, around what other jobs have booked in it. Once a step has begun, it is what is still\n" +
			"to do. Booked again, it moves: calendars that follow the job or the bay change the same entries, and webhooks are told.\n" +
			"With --until it books from --start until then as it is, for a job that nobody has inspected yet too; time that another job\n" +
			"holds is refused.",
		Example: "  glossladder job book blue-estate-spring --bay bay-1 --start \"2026-12-01 08:00\"\n" +
			"  glossladder job book blue-estate-spring --bay bay-2 --start \"2026-12-02 08:00\" --calendar spring.ics\n" +
			"  glossladder job book red-saloon-may --bay bay-1 --start \"2026-12-03 08:00\" --until \"2026-12-03 12:00\"",
		Args: oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			request, in, err := f.request(named("jobs", args[0]), &k)
			if err != nil {
				return err
			}
			var done *glossladderv1.RecordResponse
			var file *glossladderv1.Calendar
			err = p.booker(cmd.Context(), func(ctx context.Context, booker glossladderv1.BookingServiceClient) (err error) {
				if done, err = booker.BookBay(ctx, request); err != nil || f.calendar == "" || k.tryOnly {
					return err
				}
				file, err = booker.GetJobCalendar(ctx, &glossladderv1.GetJobCalendarRequest{Name: request.GetName()})
				return err
			})
			if err != nil {
				return p.unknownTo(takenIn(err, in), "glossladder job list")
			}
			if file != nil {
				if err := writeCalendar(f.calendar, file); err != nil {
					return err
				}
			}
			if p.asJSON() {
				return p.json(done)
			}
			return page.Booked(p.out, done.GetJob(), len(done.GetEvents()) > 0, in, p.style())
		}),
	}
	cmd.Flags().StringVar(&f.bay, "bay", "", "the bay: small letters, digits and single hyphens")
	cmd.Flags().StringVar(&f.start, "start", "", "when the vehicle is there, as \"2026-12-01 08:00\"")
	cmd.Flags().StringVar(&f.until, "until", "", "book until then as it is, whatever work and opening hours say, as \"2026-12-01 12:00\"")
	cmd.Flags().StringVar(&f.work, "what", "work", "with --until: what is done")
	cmd.Flags().StringVar(&f.open, "open", "", "when the bay is open, as \""+usualHours+"\" (left out: as the shop's catalogue says)")
	cmd.Flags().StringVar(&f.zone, "zone", "", "time zone of --start and --open, as Europe/Berlin (left out: that of this machine)")
	cmd.Flags().Int32Var(&f.people, "people", 0, "people who share the work (left out: one)")
	cmd.Flags().Int32Var(&f.gap, "gap", -1, "minutes for which the bay has to be free beside other jobs for the vehicle to be brought in (left out: as the catalogue says)")
	cmd.Flags().BoolVar(&f.overlap, "allow-overlap", false, "book whatever other jobs have booked at the time")
	cmd.Flags().StringVar(&f.calendar, "calendar", "", "also write the job's calendar to this file, as iCalendar")
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}

// request makes the booking, and gives the zone that times are told in.
func (f *slotFlags) request(job string, k *kept) (*glossladderv1.BookBayRequest, *time.Location, error) {
	if f.bay == "" || f.start == "" {
		return nil, nil, &usageError{"say where and when: --bay bay-1 --start \"2026-12-01 08:00\""}
	}
	in, opening, err := (&bayFlags{open: f.open, zone: f.zone}).hours()
	if err != nil {
		return nil, nil, err
	}
	start, err := intake.TimeIn(f.start, in)
	if err != nil {
		return nil, nil, &usageError{"--start " + err.Error()}
	}
	entry, err := k.entry()
	if err != nil {
		return nil, nil, err
	}
	request := &glossladderv1.BookBayRequest{Name: job, Entry: entry, Bay: f.bay, AllowOverlap: f.overlap}
	if f.until != "" {
		return request, in, f.fixed(request, start, in)
	}
	work := &glossladderv1.BayWork{StartTime: timestamppb.New(start), Opening: opening}
	if f.gap >= 0 {
		work.ShortestMin = &f.gap
	}
	if f.people > 0 {
		work.Crew = &glossladderv1.Crew{People: &f.people}
	}
	request.What = &glossladderv1.BookBayRequest_Work{Work: work}
	return request, in, nil
}

// fixed books one stretch as it is told.
func (f *slotFlags) fixed(request *glossladderv1.BookBayRequest, start time.Time, in *time.Location) error {
	if f.open != "" || f.people > 0 || f.gap >= 0 {
		return &usageError{"--until books a fixed time; --open, --people and --gap are for work that is laid into the bay's hours"}
	}
	end, err := intake.TimeIn(f.until, in)
	if err != nil {
		return &usageError{"--until " + err.Error()}
	}
	if !end.After(start) {
		return &usageError{fmt.Sprintf("--until %s is not after --start %s", f.until, f.start)}
	}
	request.What = &glossladderv1.BookBayRequest_Blocks{Blocks: &glossladderv1.BayBlocks{Blocks: []*glossladderv1.BayBlock{{
		What: f.work, StartTime: timestamppb.New(start), EndTime: timestamppb.New(end),
	}}}}
	return nil
}

func (p *program) jobCalendar() *cobra.Command {
	var bay, to string
	cmd := &cobra.Command{
		Use:   "calendar JOB | --bay BAY",
		Short: "Write the bay time of a job, or of all jobs in a bay, as an iCalendar file",
		Long: "What was booked once and is no more stays in the file, cancelled, so that a calendar which has it strikes it out. A running\n" +
			"service has the same files to subscribe to: /calendar/jobs/JOB.ics and /calendar/bays/BAY.ics.",
		Example: "  glossladder job calendar blue-estate-spring --to spring.ics\n  glossladder job calendar --bay bay-1",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 || (len(args) == 1) == (bay != "") {
				return &usageError{"name one job, or a bay with --bay: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			var file *glossladderv1.Calendar
			err := p.booker(cmd.Context(), func(ctx context.Context, booker glossladderv1.BookingServiceClient) (err error) {
				if bay != "" {
					file, err = booker.GetBayCalendar(ctx, &glossladderv1.GetBayCalendarRequest{Name: named("bays", bay)})
					return err
				}
				file, err = booker.GetJobCalendar(ctx, &glossladderv1.GetJobCalendarRequest{Name: named("jobs", args[0])})
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			switch {
			case to != "":
				return writeCalendar(to, file)
			case p.asJSON():
				return p.json(file)
			}
			_, err = p.out.Write([]byte(file.GetIcs()))
			return err
		}),
	}
	cmd.Flags().StringVar(&bay, "bay", "", "of this bay, all jobs in it")
	cmd.Flags().StringVar(&to, "to", "", "file to write to (left out: standard output)")
	p.keeps(cmd)
	return cmd
}

func writeCalendar(to string, file *glossladderv1.Calendar) error {
	if err := os.WriteFile(to, []byte(file.GetIcs()), 0o644); err != nil { //nolint:gosec // a calendar is to be read by other programs
		return fmt.Errorf("write the calendar: %w", err)
	}
	return nil
}
