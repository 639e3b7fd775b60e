package cli

import (
	"context"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// kindOfPanel is what lessons are asked for, as words on the command line.
type kindOfPanel struct {
	softness, shade, defect string
	severity                string
	every                   bool
}

// lessons is the command that tells what usually works, with what else the record has to say under it.
func (p *program) lessons() *cobra.Command {
	var k kindOfPanel
	cmd := &cobra.Command{
		Use:   "history",
		Short: "Tell what usually works here, from the shop's own record",
		Long: "Tells how often each step was accepted on such panels, what it gained, took and lasted, each with an interval and with how\n" +
			"far few records are drawn towards the rest. What is left out is not told apart.\n\n" +
			"Under it: hints names bounds of the rules that outcomes speak against; explain tells a recorded decision again.",
		Example: "  glossladder history\n" +
			"  glossladder history --softness soft --shade dark --severity 3\n" +
			"  glossladder history --all\n" +
			"  glossladder history hints",
		Args: noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error { return p.tellLessons(cmd.Context(), k) }),
	}
	cmd.Flags().StringVar(&k.softness, "softness", "", "of the paint: very-soft, soft, medium, hard, very-hard")
	cmd.Flags().StringVar(&k.severity, "severity", "", "of the worst mark, 0 to 5; its band is looked at")
	cmd.Flags().StringVar(&k.shade, "shade", "", "of the colour: light, medium, dark, and so on")
	cmd.Flags().StringVar(&k.defect, "defect", "", "kind of the worst mark: wash-marks, haze, and so on")
	cmd.Flags().BoolVar(&k.every, "all", false, "list every kind of panel on record")
	p.keeps(cmd)
	cmd.AddCommand(p.ruleHints(), p.explainAgain())
	return cmd
}

func (k kindOfPanel) request() (*glossladderv1.GetLessonsRequest, error) {
	out := &glossladderv1.GetLessonsRequest{EveryClass: k.every}
	for _, each := range []struct {
		flag, text string
		enum       protoreflect.EnumDescriptor
		put        func(protoreflect.EnumNumber)
	}{
		{"--softness", k.softness, out.GetSoftness().Descriptor(), func(n protoreflect.EnumNumber) { out.Softness = glossladderv1.Softness(n) }},
		{"--shade", k.shade, out.GetShade().Descriptor(), func(n protoreflect.EnumNumber) { out.Shade = glossladderv1.Shade(n) }},
		{"--defect", k.defect, out.GetDefect().Descriptor(), func(n protoreflect.EnumNumber) { out.Defect = glossladderv1.DefectKind(n) }},
	} {
		if each.text == "" {
			continue
		}
		number, err := intake.Word(each.text, each.enum)
		if err != nil {
			return nil, &usageError{each.flag + ": " + err.Error()}
		}
		each.put(number)
	}
	if k.severity != "" {
		v, err := strconv.ParseFloat(k.severity, 64)
		if err != nil || !(v >= 0 && v <= 5) {
			return nil, &usageError{fmt.Sprintf("--severity %s: it is a number from 0 to 5", k.severity)}
		}
		out.Severity = &v
	}
	return out, nil
}

func (p *program) tellLessons(ctx context.Context, k kindOfPanel) error {
	request, err := k.request()
	if err != nil {
		return err
	}
	var said *glossladderv1.GetLessonsResponse
	err = p.learned(ctx, func(ctx context.Context, history glossladderv1.HistoryServiceClient) (err error) {
		said, err = history.GetLessons(ctx, request)
		return err
	})
	switch {
	case err != nil:
		return err
	case p.asJSON():
		return p.json(said)
	case k.every:
		return page.EveryLesson(p.out, said, p.style())
	}
	return page.Lessons(p.out, said, page.AskedWords(request, said), p.style())
}

// learned calls the service that answers from the record.
func (p *program) learned(ctx context.Context, call func(context.Context, glossladderv1.HistoryServiceClient) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewHistoryServiceClient(connection))
	})
}

func (p *program) ruleHints() *cobra.Command {
	var least int32
	var surely float64
	var most int
	cmd := &cobra.Command{
		Use:   "hints",
		Short: "Name bounds of the rules that outcomes on record speak against",
		Long: "Moves every bound of the start table by one step of its instrument, or by one word, asks every recorded panel whose trials\n" +
			"proved a ladder, and lists what the outcomes speak for, with the evidence and the effect. Nothing is changed: edit a copy of\n" +
			"the rules, and hold it against the record with: glossladder rules replay --with DIR",
		Example: "  glossladder history hints --rules my-rules",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			request := &glossladderv1.ListRuleHintsRequest{LeastOutcomes: least}
			if cmd.Flags().Changed("surely") {
				request.SurelyPct = &surely
			}
			return p.tellHints(cmd.Context(), request, most)
		}),
	}
	cmd.Flags().Int32Var(&least, "least", 8, "how many outcomes have to speak, for or against")
	cmd.Flags().Float64Var(&surely, "surely", 99, "least chance, in %, that more speak for the change than against it")
	cmd.Flags().IntVar(&most, "most", 3, "how many regions of the effect to show; 0: all")
	p.keeps(cmd)
	return cmd
}

func (p *program) tellHints(ctx context.Context, request *glossladderv1.ListRuleHintsRequest, most int) error {
	var said *glossladderv1.ListRuleHintsResponse
	err := p.learned(ctx, func(ctx context.Context, history glossladderv1.HistoryServiceClient) (err error) {
		said, err = history.ListRuleHints(ctx, request)
		return err
	})
	if err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(said)
	}
	return page.Hints(p.out, said, most, p.style())
}

func (p *program) explainAgain() *cobra.Command {
	var panel, table string
	cmd := &cobra.Command{
		Use:   "explain JOB EVENT",
		Short: "Tell a recorded decision again, by the rules that made it",
		Long: "EVENT is the number of the decision among the job's events; glossladder job events lists them. The rule set that made it is\n" +
			"kept with the record, and the facts are those that were seen then.",
		Example: "  glossladder history explain blue-estate-spring 3 --table start",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 2 {
				return &usageError{"name a job and the number of an event: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			sequence, err := strconv.ParseInt(args[1], 10, 64)
			if err != nil || sequence < 1 {
				return &usageError{fmt.Sprintf("%s is no number of an event; glossladder job events %s lists them", args[1], args[0])}
			}
			request := &glossladderv1.ExplainDecisionRequest{Job: named("jobs", args[0]), Sequence: sequence, PanelId: panel, Table: table}
			var said *glossladderv1.ExplainDecisionResponse
			err = p.learned(cmd.Context(), func(ctx context.Context, history glossladderv1.HistoryServiceClient) (err error) {
				said, err = history.ExplainDecision(ctx, request)
				return err
			})
			if err != nil {
				return p.unknownTo(err, "glossladder job events "+args[0])
			}
			if p.asJSON() {
				return p.json(said)
			}
			return page.Again(p.out, said, idOf(request.GetJob()), sequence, p.style())
		}),
	}
	cmd.Flags().StringVar(&panel, "panel", "", "only this panel")
	cmd.Flags().StringVar(&table, "table", "", "only this table, such as start or limit")
	cmd.Flags().BoolVar(&p.full, "full", false, "tell also which rules just missed")
	p.keeps(cmd)
	return cmd
}
