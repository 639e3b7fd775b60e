package cli

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// explaining is what explain was asked for beside the file.
type explaining struct {
	inspection, panel string
	table             choice
	would             choice
	over              string // two facts with a comma between
	defect            choice
	pair              bool
	exam              page.Exam
	answers           choice
}

func newExplaining() *explaining {
	var defect glossladderv1.DefectKind
	return &explaining{
		table:   choice{words: []string{"readiness", "start", "limit", "ladder", "settings", "cautions", "verdict", "all"}},
		would:   choice{words: append([]string{"none", "finish", "polish", "cut"}, verdicts()...)},
		defect:  choice{words: vocabulary.Words(defect.Descriptor())},
		answers: choice{value: "below", words: []string{"below", "none", "only"}},
	}
}

func verdicts() []string {
	var kind glossladderv1.VerdictKind
	return vocabulary.Words(kind.Descriptor())
}

func (p *program) explain() *cobra.Command {
	input := newInput()
	asked := newExplaining()
	cmd := &cobra.Command{
		Use:   "explain FILE|-",
		Short: "Tell why a panel or a trial gets its answer, why not another, and what would change it",
		Long: "Reads an inspection as recommend does, or trials as judge does, and tells for one panel why every decision came out as\n" +
			"it did, which rules nearly answered otherwise, and what would change the answer, the nearest first: each change was\n" +
			"tried on the inspection itself. What you would have done, with --would, gets its why-not. --map shows one decision\n" +
			"over two facts. --pair and --quiz are for teaching.",
		Example: "  glossladder explain job.yaml\n  glossladder explain job.yaml --panel bonnet --would cut\n  glossladder explain trial.yaml --inspection job.yaml --would accept\n" +
			"  glossladder explain job.yaml --map softness,severity\n  glossladder explain job.yaml --map film,softness --table limit\n  glossladder explain job.yaml --quiz 3 --answers none",
		Args: input.oneFile,
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if input.template {
				return p.template("inspection.yaml")
			}
			return p.explainFile(cmd.Context(), args[0], input, asked)
		}),
	}
	input.flags(cmd)
	p.outputFlag(cmd)
	flags := cmd.Flags()
	flags.StringVar(&asked.inspection, "inspection", "", "file that holds the inspection, when FILE holds the trials alone")
	flags.StringVar(&asked.panel, "panel", "", "which panel (left out: the first, or the one that was tried)")
	flags.Var(&asked.would, "would", "what you would have done: none, finish, polish, cut, or a verdict such as accept")
	flags.Var(&asked.table, "table", "one decision only, or all (left out: those that are asked about first)")
	flags.StringVar(&asked.over, "map", "", "two facts, FACT,FACT: show a decision over both; film is the lowest film reading")
	flags.Var(&asked.defect, "defect", "with --map, the kind of mark whose start is shown (left out: the one that asks for most)")
	flags.BoolVar(&asked.pair, "pair", false, "teach by contrast: for each decision the panel, its nearest neighbour with another answer, and why")
	flags.IntVar(&asked.exam.Questions, "quiz", 0, "ask up to this many questions about the panel, and answer them with reasons")
	flags.Uint64Var(&asked.exam.Seed, "seed", 0, "with --quiz, a number that picks the questions: the same one gives the same sheet (0: the nearest changes first)")
	flags.Var(&asked.answers, "answers", "with --quiz, where the answers go: below the questions, none, or only them")
	flags.BoolVar(&p.full, "full", false, "give every condition of the rules too")
	p.reachable(cmd)
	return cmd
}

// check finds flags that do not go together.
func (a *explaining) check() error {
	x, y, two := strings.Cut(a.over, ",")
	switch {
	case a.over != "" && (!two || x == "" || y == "" || strings.Contains(y, ",")):
		return &usageError{"--map takes two facts with a comma between, such as softness,severity"}
	case a.exam.Questions < 0:
		return &usageError{"--quiz takes the number of questions, from 1"}
	case a.pair && a.exam.Questions > 0, a.over != "" && (a.pair || a.exam.Questions > 0):
		return &usageError{"--map, --pair and --quiz exclude each other; give one"}
	case a.defect.value != "" && a.over == "":
		return &usageError{"--defect says whose start --map shows; give --map too"}
	case a.exam.Questions == 0 && (a.exam.Seed != 0 || a.answers.value != "below"):
		return &usageError{"--seed and --answers are for --quiz; give --quiz too"}
	}
	return nil
}

func (p *program) explainFile(ctx context.Context, file string, input *input, asked *explaining) error {
	if err := asked.check(); err != nil {
		return err
	}
	src, err := p.read(file)
	if err != nil {
		return err
	}
	var inspection *intake.Source
	if asked.inspection != "" {
		found, err := p.read(asked.inspection)
		if err != nil {
			return err
		}
		inspection = &found
	}
	readings, problems, err := p.table(input.readings)
	if err != nil {
		return err
	}
	request, places, more := intake.Explain(src, inspection, input.bare())
	problems = append(problems, more...)
	if request == nil {
		return allMistakes(problems, places, nil)
	}
	if readings != nil {
		problems = append(problems, readings.ToExplain(request, places)...)
	}
	if asked.panel != "" {
		request.PanelId = asked.panel
	}
	mistakes := func(err error) error { return allMistakes(problems, places, err) }
	if asked.over != "" {
		return p.mapDecision(ctx, request, asked, mistakes)
	}
	return p.tellWhy(ctx, request, asked, mistakes)
}

func (p *program) mapDecision(ctx context.Context, of *glossladderv1.JudgeTrialRequest, asked *explaining, mistakes func(error) error) error {
	x, y, _ := strings.Cut(asked.over, ",")
	defect, _ := vocabulary.ValueOf[glossladderv1.DefectKind](asked.defect.value)
	var answer *glossladderv1.MapDecisionResponse
	err := p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.MapDecision(ctx, &glossladderv1.MapDecisionRequest{
			Inspection: of.GetInspection(), PanelId: of.GetPanelId(), Trials: of.GetTrials(), Table: asked.table.value, Defect: defect, X: x, Y: y,
		})
		return err
	})
	if err := mistakes(err); err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(answer)
	}
	return page.DecisionMap(p.out, answer.GetMap(), answer.GetRuleSet(), p.style())
}

func (p *program) tellWhy(ctx context.Context, of *glossladderv1.JudgeTrialRequest, asked *explaining, mistakes func(error) error) error {
	request := &glossladderv1.ExplainRequest{Inspection: of.GetInspection(), PanelId: of.GetPanelId(), Trials: of.GetTrials()}
	if slices.Contains(verdicts(), asked.would.value) {
		request.WouldVerdict, _ = vocabulary.ValueOf[glossladderv1.VerdictKind](asked.would.value)
	} else {
		request.Would, _ = vocabulary.ValueOf[glossladderv1.Step](asked.would.value)
	}
	var answer *glossladderv1.ExplainResponse
	err := p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.Explain(ctx, request)
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
		return page.Pairs(p.out, answer.GetExplanation(), asked.table.value, p.style())
	case asked.exam.Questions > 0:
		asked.exam.Answers = asked.answers.value
		return page.Quiz(p.out, answer.GetExplanation(), of.GetInspection(), asked.exam, p.style())
	}
	return page.Explanation(p.out, answer.GetExplanation(), asked.table.value, p.style())
}
