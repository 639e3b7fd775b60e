package cli

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// settledFlags are what is settled with the ladders of a job.
type settledFlags struct {
	note     string
	areas    []string
	people   int32
	dayHours float64
}

func (p *program) planJob() *cobra.Command {
	var k kept
	var f settledFlags
	cmd := &cobra.Command{
		Use:   "plan JOB [PANEL=LADDER...]",
		Short: "Settle which panel gets which ladder",
		Long: "Without panels, every panel gets the ladder that its trials have proven or, without trials, the one advised. A later plan\n" +
			"takes the place of an earlier one. A ladder is its steps, strongest first: polish-finish; none leaves the panel alone.\n" +
			"Areas that were measured and who works go on record with the plan, and stay until a later plan says others. Plans, estimates\n" +
			"and bay time of the job reckon with them.",
		Example: "  glossladder job plan blue-estate-spring\n  glossladder job plan blue-estate-spring bonnet=polish-finish roof=finish boot-lid=none\n" +
			"  glossladder job plan blue-estate-spring --area bonnet=1.85 --area roof=1.6 --people 2",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return &usageError{"name one job: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			plan, err := f.plan(cmd, args[1:])
			if err != nil {
				return err
			}
			return p.recordCall(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient, entry *glossladderv1.Entry) (*glossladderv1.RecordResponse, error) {
				return keeper.RecordPlan(ctx, &glossladderv1.RecordPlanRequest{Name: named("jobs", args[0]), Entry: entry, Plan: plan})
			})
		}),
	}
	cmd.Flags().StringVar(&f.note, "note", "", "a note for people")
	cmd.Flags().StringArrayVar(&f.areas, "area", nil, "an area that was measured, in m², as bonnet=1.85; once for each panel. They take the place of all those on record; none: none is measured any more")
	cmd.Flags().Int32Var(&f.people, "people", 0, "people who share the work")
	cmd.Flags().Float64Var(&f.dayHours, "day-hours", 0, "hours of work a day")
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}

// plan reads "bonnet=polish-finish" and its like, and what goes with them; nil when nothing is said.
func (f *settledFlags) plan(cmd *cobra.Command, words []string) (*glossladderv1.Plan, error) {
	said := cmd.Flags().Changed
	if len(words) == 0 && !said("note") && !said("area") && !said("people") && !said("day-hours") {
		return nil, nil
	}
	plan := &glossladderv1.Plan{Note: f.note}
	for _, word := range words {
		panel, ladder, ok := strings.Cut(word, "=")
		if !ok {
			return nil, &usageError{fmt.Sprintf("%q is no panel with its ladder; write bonnet=polish-finish", word)}
		}
		number, err := intake.Word(ladder, glossladderv1.Ladder_LADDER_UNSPECIFIED.Descriptor())
		if err != nil {
			return nil, &usageError{panel + ": " + err.Error()}
		}
		plan.Panels = append(plan.Panels, &glossladderv1.PlannedPanel{PanelId: panel, Ladder: glossladderv1.Ladder(number)})
	}
	if said("people") || said("day-hours") {
		plan.Crew = &glossladderv1.Crew{}
	}
	if said("people") {
		plan.Crew.People = &f.people
	}
	if said("day-hours") {
		plan.Crew.DayHours = &f.dayHours
	}
	var err error
	if said("area") {
		plan.Measured, err = measuredOf(f.areas)
	}
	return plan, err
}

// measuredOf reads "bonnet=1.85" and its like, or "none".
func measuredOf(words []string) (*glossladderv1.MeasuredAreas, error) {
	out := &glossladderv1.MeasuredAreas{}
	if len(words) == 1 && words[0] == "none" {
		return out, nil
	}
	for _, word := range words {
		panel, text, _ := strings.Cut(word, "=")
		m2, err := strconv.ParseFloat(text, 64)
		if panel == "" || err != nil {
			return nil, &usageError{fmt.Sprintf("--area %q is no panel with its area in m²; write bonnet=1.85, or none", word)}
		}
		out.Areas = append(out.Areas, &glossladderv1.PanelArea{PanelId: panel, AreaM2: m2})
	}
	return out, nil
}
