package cli

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/timestamppb"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// planFlags are what a plan is asked with beside its file.
type planFlags struct {
	hours  float64
	budget string
	people int32
	bay    bayFlags
}

func (p *program) plan() *cobra.Command {
	input := newInput()
	flags := &planFlags{}
	cmd := &cobra.Command{
		Use:   "plan FILE|JOB|-",
		Short: "Turn an inspection or a job into hours, materials, money and an order of work",
		Long: "Reads an inspection, alone or with ladders, areas and crew that are settled beside it, and answers with what the whole\n" +
			"vehicle takes. Every figure names the rule or the entry of the catalogue that it comes from.\n" +
			"Of a job it plans what is on record: its inspections with their corrections, the film taken so far, the ladders of its plan or\n" +
			"those that trials have proven. JOB is an id, alone or after jobs/; ./ before a name makes it a file.\n" +
			"With --hours or --budget: the best use of hours or of a price that are fixed, what is left out, and what that costs in result.\n" +
			"With --start: the stretches of bay time; --calendar writes them as an iCalendar file. To book them for a job: job book.",
		Example: "  glossladder plan --template > car.yaml\n  glossladder plan car.yaml\n  glossladder plan blue-estate-spring\n  glossladder plan car.yaml --hours 6\n" +
			"  glossladder plan car.yaml --budget 400\n" +
			"  glossladder plan car.yaml --start 2026-12-01T08:00 --open \"Mon-Fri 08:00-12:00,13:00-17:00\" --zone Europe/Berlin --calendar bay.ics",
		Args: input.oneFile,
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("plan.yaml")
			}
			return p.answerPlan(cmd.Context(), args[0], input, flags)
		}),
	}
	input.flags(cmd)
	cmd.Flags().Float64Var(&flags.hours, "hours", 0, "hours of one person that the whole job may take")
	cmd.Flags().StringVar(&flags.budget, "budget", "", "price that the whole job may cost, as 400 or \"400.00 EUR\"")
	cmd.Flags().Int32Var(&flags.people, "people", 0, "people who share the work (left out: as in the file, or one)")
	flags.bay.flags(cmd)
	p.dataFlag(cmd)
	p.outputFlag(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give every source of every figure, with its reason")
	p.reachable(cmd)
	cmd.MarkFlagsMutuallyExclusive("hours", "budget")
	return cmd
}

func (p *program) answerPlan(ctx context.Context, what string, input *input, flags *planFlags) error {
	request, places, problems, err := p.planRequest(what, input)
	if err != nil {
		return err
	}
	if request.GetJob() != "" {
		return p.neither(p.askPlan(ctx, request, places, problems, flags), what)
	}
	if request == nil {
		return allMistakes(problems, places, nil)
	}
	return p.askPlan(ctx, request, places, problems, flags)
}

func (p *program) askPlan(ctx context.Context, request *glossladderv1.PlanJobRequest, places *intake.Places, problems problemList, flags *planFlags) error {
	if flags.people > 0 {
		if request.Crew == nil {
			request.Crew = &glossladderv1.Crew{}
		}
		request.Crew.People = &flags.people
	}
	if flags.hours != 0 || flags.budget != "" {
		return p.answerFit(ctx, request, places, problems, flags)
	}
	zone, err := flags.bay.into(request)
	if err != nil {
		return err
	}
	var answer *glossladderv1.PlanJobResponse
	err = p.askPlanner(ctx, func(ctx context.Context, planner glossladderv1.PlanServiceClient) (err error) {
		answer, err = planner.PlanJob(ctx, request)
		return err
	})
	if flags.bay.asked() {
		err = ofFlags(err)
	}
	if err := allMistakes(problems, places, err); err != nil {
		return err
	}
	if err := flags.bay.save(answer.GetBay()); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	style := p.style()
	style.Zone = zone
	return page.Plan(p.out, headOf(request), answer, style)
}

// headOf is what the answer is headed by: the job, or what the file calls the vehicle.
func headOf(request interface {
	GetJob() string
	GetInspection() *glossladderv1.Inspection
},
) string {
	if request.GetJob() != "" {
		return "job " + idOf(request.GetJob())
	}
	return request.GetInspection().GetVehicle().GetLabel()
}

// planRequest names the job, or reads the file and its readings.
func (p *program) planRequest(what string, input *input) (*glossladderv1.PlanJobRequest, *intake.Places, problemList, error) {
	job, err := jobOf(what)
	switch {
	case err != nil:
		return nil, nil, nil, err
	case job != "" && input.readings != "":
		return nil, nil, nil, &usageError{"--readings is for a file; record readings of a job in it: glossladder readings import"}
	case job != "":
		return &glossladderv1.PlanJobRequest{Job: job}, nil, nil, p.settle()
	}
	src, err := p.read(what)
	if err != nil {
		return nil, nil, nil, err
	}
	readings, problems, err := p.table(input.readings)
	if err != nil {
		return nil, nil, nil, err
	}
	request, places, more := intake.Plan(src, input.bare())
	problems = append(problems, more...)
	if request != nil && readings != nil {
		_, more := readings.ToPlan(request, places)
		problems = append(problems, more...)
	}
	return request, places, problems, nil
}

func (p *program) answerFit(ctx context.Context, plan *glossladderv1.PlanJobRequest, places *intake.Places, problems problemList, flags *planFlags) error {
	if flags.bay.asked() {
		return &usageError{"--start lays a settled plan into the bay's hours; with --hours or --budget find the ladders first, then plan them"}
	}
	request := &glossladderv1.FitHoursRequest{
		Inspection: plan.GetInspection(), Job: plan.GetJob(), Ladders: plan.GetLadders(), Areas: plan.GetAreas(), Crew: plan.GetCrew(),
		Fixed: &glossladderv1.FitHoursRequest_Hours{Hours: flags.hours},
	}
	if flags.budget != "" {
		price, err := budgetOf(flags.budget)
		if err != nil {
			return err
		}
		request.Fixed = &glossladderv1.FitHoursRequest_Price{Price: price}
	}
	var answer *glossladderv1.FitHoursResponse
	err := p.askPlanner(ctx, func(ctx context.Context, planner glossladderv1.PlanServiceClient) (err error) {
		answer, err = planner.FitHours(ctx, request)
		return err
	})
	if err := allMistakes(problems, places, ofFlags(err)); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	return page.Fit(p.out, headOf(request), answer, p.style())
}

// ofFlags turns complaints about what flags said, and not the file, into an error that names the flag.
func ofFlags(err error) error {
	flags := map[string]string{
		"hours": "--hours", "price": "--budget", "price.currency_code": "--budget", "price.nanos": "--budget", "bay.opening.zone": "--zone", "bay.opening": "--open",
		"bay.uid": "--uid", "bay.sequence": "--sequence",
	}
	for _, v := range violationsOf(err) {
		if flag, ok := flags[v.GetField()]; ok {
			return &outcome{code: failed, err: fmt.Errorf("%s: %s", flag, v.GetDescription())}
		}
	}
	return err
}

func (p *program) askPlanner(ctx context.Context, call func(context.Context, glossladderv1.PlanServiceClient) error) error {
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewPlanServiceClient(connection))
	})
}

// stamp is a time on the wire.
func stamp(t time.Time) *timestamppb.Timestamp { return timestamppb.New(t) }
