package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) recommend() *cobra.Command {
	input := newInput()
	cmd := &cobra.Command{
		Use:   "recommend FILE|-",
		Short: "Answer an inspection with a ladder for every panel",
		Long: "Reads an inspection, YAML or JSON with the contract's field names, and answers with the ladder worth trying first for\n" +
			"every panel. Numbers may carry a unit: 4.6 mil, 118 µm, 95 °F. Every mistake in the file is reported with its place.",
		Example: "  glossladder recommend --template > job.yaml\n  glossladder recommend job.yaml\n  glossladder recommend job.yaml --readings gauge.csv --output json",
		Args:    input.oneFile,
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("inspection.yaml")
			}
			return p.answerInspection(cmd.Context(), args[0], input)
		}),
	}
	input.flags(cmd)
	p.outputFlag(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give the reason of every caution and the facts behind every rule too")
	p.reachable(cmd)
	return cmd
}

func (p *program) answerInspection(ctx context.Context, file string, input *input) error {
	src, err := p.read(file)
	if err != nil {
		return err
	}
	readings, tableProblems, err := p.table(input.readings)
	if err != nil {
		return err
	}
	request, places, problems := intake.Recommend(src, input.bare())
	problems = append(problems, tableProblems...)
	if request == nil {
		return allMistakes(problems, places, nil)
	}
	if readings != nil {
		leftOut, more := readings.ToInspection(request, places)
		problems = append(problems, more...)
		if leftOut > 0 {
			fmt.Fprintf(p.err, "%s: %d rows about trials are left out; judge takes them\n", input.readings, leftOut)
		}
	}
	var answer *glossladderv1.RecommendResponse
	err = p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.Recommend(ctx, request)
		return err
	})
	if err := allMistakes(problems, places, err); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	return page.Recommendation(p.out, answer.GetRecommendation(), p.style())
}
