package cli

import (
	"context"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) judge() *cobra.Command {
	input := newInput()
	var inspection string
	cmd := &cobra.Command{
		Use:   "judge FILE|-",
		Short: "Answer a test spot with a verdict and the next move",
		Long: "Reads the inspection, the panel that was tried and every trial on it so far, the oldest first, and answers with the\n" +
			"verdict on the last trial and the next move. The inspection may stay in the file that recommend read.",
		Example: "  glossladder judge --template > trial.yaml\n  glossladder judge trial.yaml --inspection job.yaml\n  glossladder judge trial.yaml --inspection job.yaml --readings gloss.csv",
		Args:    input.oneFile,
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("trial.yaml")
			}
			return p.answerTrial(cmd.Context(), args[0], inspection, input)
		}),
	}
	cmd.Flags().StringVar(&inspection, "inspection", "", "file that holds the inspection, when FILE does not")
	input.flags(cmd)
	p.outputFlag(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give the reason of every caution and the facts behind every rule too")
	p.reachable(cmd)
	return cmd
}

func (p *program) answerTrial(ctx context.Context, file, inspectionFile string, input *input) error {
	src, err := p.read(file)
	if err != nil {
		return err
	}
	var inspection *intake.Source
	if inspectionFile != "" {
		found, err := p.read(inspectionFile)
		if err != nil {
			return err
		}
		inspection = &found
	}
	readings, tableProblems, err := p.table(input.readings)
	if err != nil {
		return err
	}
	request, places, problems := intake.Judge(src, inspection, input.bare())
	problems = append(problems, tableProblems...)
	if request == nil {
		return allMistakes(problems, places, nil)
	}
	if readings != nil {
		problems = append(problems, readings.ToTrials(request, places)...)
	}
	var answer *glossladderv1.JudgeTrialResponse
	err = p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.JudgeTrial(ctx, request)
		return err
	})
	if err := allMistakes(problems, places, err); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	return page.Verdict(p.out, answer.GetVerdict(), p.style())
}
