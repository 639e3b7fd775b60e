package cli

import (
	"context"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// estimateFlags are what is known of a vehicle that nobody has seen.
type estimateFlags struct {
	size, kept, goal, protection, shade, system choice
	age                                         float64
	only                                        bool
}

func newEstimateFlags() *estimateFlags {
	return &estimateFlags{
		size:       choice{words: vocabulary.Words(glossladderv1.VehicleSize(0).Descriptor())},
		kept:       choice{words: vocabulary.Words(glossladderv1.VehicleKept(0).Descriptor())},
		goal:       choice{words: vocabulary.Words(glossladderv1.GoalLevel(0).Descriptor())},
		protection: choice{words: vocabulary.Words(glossladderv1.Protection(0).Descriptor())},
		shade:      choice{words: vocabulary.Words(glossladderv1.Shade(0).Descriptor())},
		system:     choice{words: vocabulary.Words(glossladderv1.PaintSystem(0).Descriptor())},
		age:        -1,
	}
}

func (p *program) estimate() *cobra.Command {
	input := newInput()
	flags := newEstimateFlags()
	cmd := &cobra.Command{
		Use:   "estimate [FILE|JOB|-]",
		Short: "Give hours and price, before anyone has seen the vehicle or at any time after",
		Long: "Answers with an honest range. Flags say what is known of a vehicle that nobody has seen. A file may say it too, or hold an\n" +
			"inspection, with ladders that are settled beside it: then the range is narrower. Of a job, what is on record of it and of its\n" +
			"vehicle is counted. JOB is an id, alone or after jobs/; ./ before a name makes it a file.",
		Example: "  glossladder estimate --size medium --age 6 --kept outside --goal correct\n  glossladder estimate car.yaml\n  glossladder estimate blue-estate-spring",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return &usageError{"name one file or job at most"}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.answerEstimate(cmd.Context(), args, input, flags)
		}),
	}
	cmd.Flags().Var(&flags.size, "size", "how much vehicle there is")
	cmd.Flags().Var(&flags.kept, "kept", "where it stands when it is not driven")
	cmd.Flags().Float64Var(&flags.age, "age", -1, "years since the paint was applied at the factory")
	cmd.Flags().Var(&flags.shade, "shade", "how dark the colour looks")
	cmd.Flags().Var(&flags.system, "system", "what the outermost layer is")
	cmd.Flags().Var(&flags.goal, "goal", "what the owner wants")
	cmd.Flags().Var(&flags.protection, "protection", "what goes on afterwards")
	cmd.Flags().BoolVar(&flags.only, "only-inspected", false, "only the panels of the inspection are to be worked")
	p.dataFlag(cmd)
	p.outputFlag(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give every source of every figure, with its reason")
	p.reachable(cmd)
	return cmd
}

func (p *program) answerEstimate(ctx context.Context, args []string, input *input, flags *estimateFlags) error {
	request, places, problems := &glossladderv1.EstimateJobRequest{}, (*intake.Places)(nil), problemList(nil)
	if len(args) == 1 {
		job, err := jobOf(args[0])
		if err != nil {
			return err
		}
		if job != "" {
			request.Job = job
			if err := p.settle(); err != nil {
				return err
			}
			return p.neither(p.askEstimate(ctx, request, nil, nil, flags), args[0])
		}
		src, err := p.read(args[0])
		if err != nil {
			return err
		}
		if request, places, problems = intake.Estimate(src, input.bare()); request == nil {
			return allMistakes(problems, places, nil)
		}
	}
	return p.askEstimate(ctx, request, places, problems, flags)
}

func (p *program) askEstimate(ctx context.Context, request *glossladderv1.EstimateJobRequest, places *intake.Places, problems problemList, flags *estimateFlags) error {
	flags.into(request)
	var answer *glossladderv1.EstimateJobResponse
	err := p.askPlanner(ctx, func(ctx context.Context, planner glossladderv1.PlanServiceClient) (err error) {
		answer, err = planner.EstimateJob(ctx, request)
		return err
	})
	if places != nil {
		err = allMistakes(problems, places, err)
	}
	if err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	label := headOf(request)
	if label == "" {
		label = request.GetVehicle().GetLabel()
	}
	return page.Estimate(p.out, label, answer.GetEstimate(), p.style())
}

// into fills in what the flags say; a flag goes before the file.
func (f *estimateFlags) into(request *glossladderv1.EstimateJobRequest) {
	vehicle, goal := vehicleOf(request)
	set(&vehicle.Size, f.size.value)
	set(&vehicle.Kept, f.kept.value)
	set(&goal.Level, f.goal.value)
	set(&goal.Protection, f.protection.value)
	if f.shade.value != "" || f.system.value != "" || f.age >= 0 {
		if vehicle.Paint == nil {
			vehicle.Paint = &glossladderv1.Paint{}
		}
		set(&vehicle.Paint.Shade, f.shade.value)
		set(&vehicle.Paint.System, f.system.value)
		if f.age >= 0 {
			vehicle.Paint.AgeYears = &f.age
		}
	}
	request.OnlyInspected = request.GetOnlyInspected() || f.only
}

// vehicleOf is the vehicle and the goal that flags speak of: the inspection's where there is one.
func vehicleOf(request *glossladderv1.EstimateJobRequest) (*glossladderv1.Vehicle, *glossladderv1.Goal) {
	vehicle, goal := &request.Vehicle, &request.Goal
	if in := request.GetInspection(); in != nil {
		vehicle, goal = &in.Vehicle, &in.Goal
	}
	if *vehicle == nil {
		*vehicle = &glossladderv1.Vehicle{}
	}
	if *goal == nil {
		*goal = &glossladderv1.Goal{}
	}
	return *vehicle, *goal
}

// set gives a field the value of a word that the flag has checked already.
func set[E interface {
	~int32
	protoreflect.Enum
}](field *E, word string) {
	if word == "" {
		return
	}
	if value, ok := vocabulary.ValueOf[E](word); ok {
		*field = value
	}
}
