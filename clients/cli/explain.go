package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// explaining is what explain was asked for beside the file.
type explaining struct {
	panel, table string
	would        choice
	over         string // two facts with a comma between
	pair         bool
	quiz         int
}

func (p *program) explain() *cobra.Command {
	input := newInput()
	asked := explaining{would: choice{words: []string{"none", "finish", "polish", "cut"}}}
	cmd := &cobra.Command{
		Use:   "explain FILE|-",
		Short: "Tell why a panel gets its answer, why not another, and what would change it",
		Long: "Reads an inspection as recommend does and tells, for one panel, why every decision came out as it did, which rules\n" +
			"nearly answered otherwise, and what would change the answer, the nearest first. A step of your own with --would gets\n" +
			"its why-not. --map shows one decision over two facts, all others as they are.",
		Example: "  glossladder explain job.yaml\n  glossladder explain job.yaml --panel bonnet --would cut\n  glossladder explain job.yaml --map softness,severity\n  glossladder explain job.yaml --quiz 3",
		Args:    input.oneFile,
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("inspection.yaml")
			}
			return p.explainInspection(cmd.Context(), args[0], input, &asked)
		}),
	}
	input.flags(cmd)
	p.outputFlag(cmd)
	cmd.Flags().StringVar(&asked.panel, "panel", "", "which panel (left out: the first)")
	cmd.Flags().Var(&asked.would, "would", "the step that you would have taken: none, finish, polish, cut")
	cmd.Flags().StringVar(&asked.over, "map", "", "two facts, FACT,FACT: show the decision over both")
	cmd.Flags().StringVar(&asked.table, "table", "", "with --map, which decision: start (the usual), limit, ladder")
	cmd.Flags().BoolVar(&asked.pair, "pair", false, "teach by contrast: for each decision the panel, its nearest neighbour with another answer, and what decides")
	cmd.Flags().IntVar(&asked.quiz, "quiz", 0, "ask up to this many questions about the panel, then answer them with reasons")
	cmd.Flags().BoolVar(&p.full, "full", false, "give every condition of the rules too")
	p.reachable(cmd)
	return cmd
}

func (p *program) explainInspection(ctx context.Context, file string, input *input, asked *explaining) error {
	x, y, two := strings.Cut(asked.over, ",")
	switch {
	case asked.over != "" && (!two || x == "" || y == "" || strings.Contains(y, ",")):
		return &usageError{"--map takes two facts with a comma between, such as softness,severity"}
	case asked.quiz < 0:
		return &usageError{"--quiz takes the number of questions, from 1"}
	case asked.pair && asked.quiz > 0, asked.over != "" && (asked.pair || asked.quiz > 0):
		return &usageError{"--map, --pair and --quiz exclude each other; give one"}
	case asked.table != "" && asked.over == "":
		return &usageError{"--table says which decision --map shows; give --map too"}
	}
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
		_, more := readings.ToInspection(request, places)
		problems = append(problems, more...)
	}
	if asked.over == "" {
		return p.tellWhy(ctx, request.GetInspection(), asked, func(err error) error { return allMistakes(problems, places, err) })
	}
	answer := &glossladderv1.MapDecisionResponse{}
	err = p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.MapDecision(ctx, &glossladderv1.MapDecisionRequest{
			Inspection: request.GetInspection(), PanelId: asked.panel, Table: asked.table, X: x, Y: y,
		})
		return err
	})
	if err := allMistakes(problems, places, err); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	return page.DecisionMap(p.out, answer.GetMap(), answer.GetRuleSet(), p.style())
}

func (p *program) tellWhy(ctx context.Context, inspection *glossladderv1.Inspection, asked *explaining, mistakes func(error) error) error {
	var answer *glossladderv1.ExplainResponse
	err := p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		step := glossladderv1.Step_STEP_UNSPECIFIED
		if asked.would.value != "" {
			step = glossladderv1.Step(glossladderv1.Step_value["STEP_"+strings.ToUpper(asked.would.value)])
		}
		answer, err = adviser.Explain(ctx, &glossladderv1.ExplainRequest{Inspection: inspection, PanelId: asked.panel, Would: step})
		return err
	})
	if err := mistakes(err); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	switch {
	case asked.pair:
		return page.Pairs(p.out, answer.GetExplanation(), p.style())
	case asked.quiz > 0:
		return page.Quiz(p.out, answer.GetExplanation(), asked.quiz, p.style())
	}
	return page.Explanation(p.out, answer.GetExplanation(), p.style())
}
