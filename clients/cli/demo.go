package cli

import (
	"context"
	"embed"
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// demoFiles are the invented inspection and trials of the demo, as a technician would write them.
//
//go:embed demo/inspection.yaml demo/trial-1.yaml demo/trial-2.yaml demo/return.yaml
var demoFiles embed.FS

func (p *program) demo() *cobra.Command {
	return &cobra.Command{
		Use:   "demo",
		Short: "Tell an invented job from the inspection to a proven ladder, and the return of the car",
		Long:  "Tells an invented job: inspection, recommendation, two test spots, proven ladder, and the car's return. Car, shop and readings are invented;\nthe answers are the service's own, asked while the story is told.",
		Args:  noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			story := page.NewStory(p.style())
			remove, err := p.keptStory()
			if err != nil {
				return err
			}
			defer remove()
			err = p.reach(cmd.Context(), func(ctx context.Context, connection *grpc.ClientConn) error {
				return (&teller{
					story: story, adviser: glossladderv1.NewAdvisorServiceClient(connection), keeper: glossladderv1.NewJobServiceClient(connection),
					history: glossladderv1.NewHistoryServiceClient(connection),
				}).tell(ctx)
			})
			if err != nil {
				return err
			}
			return story.Print(p.out)
		}),
	}
}

// teller tells the demo's story around real answers.
type teller struct {
	story   *page.Story
	adviser glossladderv1.AdvisorServiceClient
	keeper  glossladderv1.JobServiceClient
	history glossladderv1.HistoryServiceClient
}

func (t *teller) tell(ctx context.Context) error {
	for _, part := range []func(context.Context) error{t.inspection, t.firstTrial, t.secondTrial, t.proven, t.aYearLater} {
		if err := part(ctx); err != nil {
			return err
		}
	}
	t.end()
	return nil
}

func (t *teller) inspection(ctx context.Context) error {
	request, _, problems := intake.Recommend(t.source("inspection.yaml"), intake.Bare{})
	if err := problems.Err(); err != nil {
		return err
	}
	answer, err := t.adviser.Recommend(ctx, request)
	if err != nil {
		return err
	}
	r := answer.GetRecommendation()
	t.story.Chapter("An invented job")
	t.story.Tell("The car, the shop, the owner and every reading in this story are invented. The answers are not: they come from the service and the rules it ships with, asked while the story is told.")
	t.story.Chapter("The inspection")
	t.story.Tell("A dark estate car, four years old, comes in. It has been through the car wash too often, and its owner wants most of the light marks gone and a sealant on top. The technician washes, decontaminates and tapes it, then goes over three panels with a point light, a film gauge and a gloss meter. She reads each taped spot three times and sends it all to the service, which answers:")
	t.story.Panels(r)
	t.story.Tell("The bonnet in short, with the rules that decided:")
	t.story.Advice(r.GetPanels()[0])
	t.story.Tell("The door is another matter:")
	t.story.Advice(r.GetPanels()[2])
	t.story.Cautions(r.GetCautions())
	return nil
}

func (t *teller) firstTrial(ctx context.Context) error {
	verdict, err := t.judge(ctx, "trial-1.yaml", glossladderv1.VerdictKind_VERDICT_KIND_REFINE)
	if err != nil {
		return err
	}
	t.story.Chapter("The first test spot")
	t.story.Tell("She works one section of the bonnet with the polish, just as told, wipes it with panel wipe so that no oil flatters the result, and reads the same three spots again. The wash marks are nearly gone, but under the light there is a veil that was not there before. The verdict:")
	t.story.Verdict(verdict)
	t.story.Tell("More gloss, and still it is not done: the meter sees the haze that the polish left behind.")
	return nil
}

func (t *teller) secondTrial(ctx context.Context) error {
	verdict, err := t.judge(ctx, "trial-2.yaml", glossladderv1.VerdictKind_VERDICT_KIND_ACCEPT)
	if err != nil {
		return err
	}
	t.story.Chapter("The second test spot")
	t.story.Tell("On the same section she works the finish, changes nothing else, wipes and reads once more:")
	t.story.Verdict(verdict)
	return nil
}

func (t *teller) proven(context.Context) error {
	t.story.Chapter("A proven ladder")
	t.story.Tell("Two short trials, a few micrometres kept, and a ladder that is shown to work on this paint, on the panel that was tried and on those that need the same. What happens to the rest of the car she decides; the service says what it would do and why, and every rule behind it is a line in a file that a shop can change.")
	return nil
}

func (t *teller) end() {
	t.story.Chapter("Try it")
	t.story.Commands(
		"glossladder recommend --template > job.yaml",
		"glossladder recommend job.yaml",
		"glossladder judge --template > trial.yaml",
		"glossladder judge trial.yaml",
		"glossladder rules copy my-rules",
		"glossladder vehicle new \"dark estate\" --id estate",
		"glossladder job new estate --id first",
	)
}

// judge asks for the verdict on a file of trials. The story only holds for the verdict that it was written for.
func (t *teller) judge(ctx context.Context, file string, expected glossladderv1.VerdictKind) (*glossladderv1.Verdict, error) {
	inspection := t.source("inspection.yaml")
	request, _, problems := intake.Judge(t.source(file), &inspection, intake.Bare{})
	if err := problems.Err(); err != nil {
		return nil, err
	}
	answer, err := t.adviser.JudgeTrial(ctx, request)
	if err != nil {
		return nil, err
	}
	if got := answer.GetVerdict().GetKind(); got != expected {
		return nil, fmt.Errorf("the story does not fit the rules any more: %s is answered %s, not %s", file, got, expected)
	}
	return answer.GetVerdict(), nil
}

func (t *teller) source(name string) intake.Source {
	text, _ := demoFiles.ReadFile("demo/" + name) // a name that is not embedded reads as an empty file, which has a problem
	return intake.Source{Name: "demo/" + name, Text: text}
}
