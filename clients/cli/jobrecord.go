package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// jobFile accepts a job and a file, or a template's flag alone.
func jobFile(template *bool) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case *template && len(args) > 0:
			return &usageError{"--template takes no job and no file; it prints one to fill in"}
		case !*template && len(args) != 2:
			return &usageError{fmt.Sprintf("name the job and one file, or - for standard input: %s", cmd.Use)}
		}
		return nil
	}
}

func (p *program) recordInJob() *cobra.Command {
	input, gauge := newInput(), newGaugeFlags()
	var k kept
	cmd := &cobra.Command{
		Use:   "record JOB FILE|-",
		Short: "Record an inspection or readings in a job",
		Long: "Reads an inspection, YAML or JSON as for recommend, and records it with the advice on it; film that earlier visits took and\n" +
			"paint that is known from the vehicle's record are filled in. Or reads readings: YAML or JSON with \"readings\"\n" +
			"(--template prints one), or a CSV table with the columns panel, spot, when (before, during, after), step and readings.\n" +
			"Files that gauges write, with other names for their columns: glossladder readings import.",
		Example: "  glossladder job record blue-estate-spring inspection.yaml\n  glossladder job record blue-estate-spring during.csv --when during --step polish",
		Args:    jobFile(&input.template),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("readings.yaml")
			}
			if strings.EqualFold(filepath.Ext(args[1]), ".csv") {
				return p.importReadings(cmd.Context(), args[0], args[1], gauge, &k)
			}
			if gauge.when != "" || gauge.step != "" || gauge.leftAsSet || gauge.again {
				return &usageError{"--when, --step, --gauge-left-as-set and --again are for tables; another file says so itself"}
			}
			k.tryOnly = k.tryOnly || gauge.preview
			return p.recordFile(cmd.Context(), args[0], args[1], input, &k)
		}),
	}
	input.flags(cmd)
	gauge.momentFlags(cmd)
	k.entries(cmd)
	p.keeps(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give the reason of every caution and the facts behind every rule too")
	return cmd
}

// recordFile records what a file of YAML or JSON holds.
func (p *program) recordFile(ctx context.Context, job, file string, input *input, k *kept) error {
	src, err := p.read(file)
	if err != nil {
		return err
	}
	readings, tableProblems, err := p.table(input.readings)
	if err != nil {
		return err
	}
	found, places, problems := intake.ForJob(src, input.bare())
	problems = append(problems, tableProblems...)
	if found == nil {
		return allMistakes(problems, places, nil)
	}
	if readings != nil && found.Inspection == nil {
		return &usageError{"--readings adds to an inspection; record a table of readings by itself"}
	}
	if readings != nil {
		_, more := readings.ToInspection(&glossladderv1.RecommendRequest{Inspection: found.Inspection}, places)
		problems = append(problems, more...)
	}
	if len(problems) > 0 {
		return allMistakes(problems, places, nil)
	}
	entry, err := k.entry()
	if err != nil {
		return err
	}
	var answer *glossladderv1.RecordResponse
	err = p.record(ctx, k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
		if found.Inspection != nil {
			answer, err = keeper.RecordInspection(ctx, &glossladderv1.RecordInspectionRequest{Name: named("jobs", job), Entry: entry, Inspection: found.Inspection})
			return err
		}
		answer, err = keeper.RecordReadings(ctx, &glossladderv1.RecordReadingsRequest{Name: named("jobs", job), Entry: entry, Readings: found.Readings})
		return err
	})
	if err := allMistakes(nil, places, err); err != nil {
		return p.unknownTo(err, "glossladder job list")
	}
	return p.recorded(answer, k)
}

// recorded says what was recorded and how the job stands.
func (p *program) recorded(answer *glossladderv1.RecordResponse, k *kept) error {
	if p.asJSON() {
		return p.json(answer)
	}
	return page.Recorded(p.out, answer, k.tryOnly, p.style())
}

func (p *program) recordTrial() *cobra.Command {
	input := newInput()
	var k kept
	cmd := &cobra.Command{
		Use:   "trial JOB FILE|-",
		Short: "Record a test spot and the verdict on it",
		Long: "Reads one trial, YAML or JSON: panel_id, and the trial under \"trial\". The inspection and the trials before it are the job's.\n" +
			"It is recorded with the verdict and the next move.",
		Example: "  glossladder job trial --template > trial.yaml\n  glossladder job trial blue-estate-spring trial.yaml",
		Args:    jobFile(&input.template),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("jobtrial.yaml")
			}
			src, err := p.read(args[1])
			if err != nil {
				return err
			}
			record, places, problems := intake.TrialForJob(src, input.bare())
			if len(problems) > 0 {
				return allMistakes(problems, places, nil)
			}
			entry, err := k.entry()
			if err != nil {
				return err
			}
			var answer *glossladderv1.RecordResponse
			err = p.record(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
				answer, err = keeper.RecordTrial(ctx, &glossladderv1.RecordTrialRequest{Name: named("jobs", args[0]), Entry: entry, Trial: record})
				return err
			})
			if err := allMistakes(nil, places, err); err != nil {
				return p.unknownTo(err, "glossladder job list")
			}
			return p.recorded(answer, &k)
		}),
	}
	cmd.Flags().BoolVar(&input.template, "template", false, "print a file to fill in, with what each field means")
	cmd.Flags().Var(&input.filmUnit, "film-unit", "unit of film thicknesses written without one")
	cmd.Flags().Var(&input.heatUnit, "temperature-unit", "unit of temperatures written without one")
	k.entries(cmd)
	p.keeps(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give the reason of every caution and the facts behind every rule too")
	return cmd
}
