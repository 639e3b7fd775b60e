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

func (p *program) adviseJob() *cobra.Command {
	var k kept
	cmd := &cobra.Command{
		Use:   "advise JOB",
		Short: "Ask the rules now in force about a job's panels again, and record the answer",
		Args:  oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.recordCall(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient, entry *glossladderv1.Entry) (*glossladderv1.RecordResponse, error) {
				return keeper.Advise(ctx, &glossladderv1.AdviseRequest{Name: named("jobs", args[0]), Entry: entry})
			})
		}),
	}
	k.entries(cmd)
	p.keeps(cmd)
	cmd.Flags().BoolVar(&p.full, "full", false, "give the reason of every caution and the facts behind every rule too")
	return cmd
}

// recordCall makes one call that records, with what comes with it, and says what was recorded.
func (p *program) recordCall(ctx context.Context, k *kept, call func(context.Context, glossladderv1.JobServiceClient, *glossladderv1.Entry) (*glossladderv1.RecordResponse, error)) error {
	entry, err := k.entry()
	if err != nil {
		return err
	}
	var answer *glossladderv1.RecordResponse
	err = p.record(ctx, k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) (err error) {
		answer, err = call(ctx, keeper, entry)
		return err
	})
	if err != nil {
		return p.unknownTo(err, "glossladder job list")
	}
	return p.recorded(answer, k)
}

// workFlags are what is told of work on a panel.
type workFlags struct {
	begun, done     bool
	leftOut         string
	sections, note  string
	minutes         float64
	freshPad, spare bool
}

func (p *program) progressJob() *cobra.Command {
	var k kept
	var f workFlags
	cmd := &cobra.Command{
		Use:   "progress JOB STEP PANEL...",
		Short: "Record work on one panel or several",
		Long: "Records how far a step is. Minutes are those since the entry before, for each panel; sections are those so far. Say when a\n" +
			"fresh or cleaned pad was put on: a pad that loads up is told by how many sections it has worked.",
		Example: "  glossladder job progress blue-estate-spring polish bonnet --begun --fresh-pad\n" +
			"  glossladder job progress blue-estate-spring polish bonnet --done --sections 8/8 --minutes 42\n" +
			"  glossladder job progress blue-estate-spring finish roof --left-out \"owner is content\"",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 3 {
				return &usageError{"name the job, the step and at least one panel: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			work, err := f.work(cmd, args[1], args[2:])
			if err != nil {
				return err
			}
			return p.recordCall(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient, entry *glossladderv1.Entry) (*glossladderv1.RecordResponse, error) {
				return keeper.RecordProgress(ctx, &glossladderv1.RecordProgressRequest{Name: named("jobs", args[0]), Entry: entry, Progress: work})
			})
		}),
	}
	cmd.Flags().BoolVar(&f.begun, "begun", false, "it is under way")
	cmd.Flags().BoolVar(&f.done, "done", false, "it is worked all over")
	cmd.Flags().StringVar(&f.leftOut, "left-out", "", "it is left out on purpose, and why")
	cmd.Flags().StringVar(&f.sections, "sections", "", "sections worked so far, of how many: 3 or 3/8")
	cmd.Flags().Float64Var(&f.minutes, "minutes", 0, "minutes worked since the entry before")
	cmd.Flags().BoolVar(&f.freshPad, "fresh-pad", false, "a fresh or cleaned pad was put on for it")
	cmd.Flags().BoolVar(&f.spare, "test-section-spared", false, "the step took nothing on the test section")
	cmd.Flags().StringVar(&f.note, "note", "", "a note for people")
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}

// work makes an entry for each panel.
func (f *workFlags) work(cmd *cobra.Command, step string, panels []string) ([]*glossladderv1.Progress, error) {
	number, err := intake.Word(step, glossladderv1.Step_STEP_UNSPECIFIED.Descriptor())
	if err != nil {
		return nil, &usageError{err.Error()}
	}
	if (f.begun && f.done) || (f.leftOut != "" && (f.begun || f.done)) || (!f.begun && !f.done && f.leftOut == "") {
		return nil, &usageError{"say one of --begun, --done and --left-out WHY"}
	}
	out := make([]*glossladderv1.Progress, len(panels))
	for i, panel := range panels {
		w := &glossladderv1.Progress{PanelId: panel, Step: glossladderv1.Step(number), State: glossladderv1.StepState_STEP_STATE_UNDER_WAY, Note: f.note, TestSectionSpared: f.spare}
		switch {
		case f.done:
			w.State = glossladderv1.StepState_STEP_STATE_DONE
		case f.leftOut != "":
			w.State, w.Note = glossladderv1.StepState_STEP_STATE_LEFT_OUT, f.leftOut
		}
		if cmd.Flags().Changed("minutes") {
			w.Minutes = &f.minutes
		}
		if f.freshPad {
			w.FreshPad = &f.freshPad
		}
		if err := sectionsOf(f.sections, w); err != nil {
			return nil, err
		}
		out[i] = w
	}
	return out, nil
}

// sectionsOf reads "3" or "3/8".
func sectionsOf(text string, into *glossladderv1.Progress) error {
	if text == "" {
		return nil
	}
	done, total, both := strings.Cut(text, "/")
	n, err := strconv.ParseInt(done, 10, 32)
	m := int64(0)
	if err == nil && both {
		m, err = strconv.ParseInt(total, 10, 32)
	}
	if err != nil {
		return &usageError{fmt.Sprintf("--sections %q: write 3 or 3/8", text)}
	}
	into.SectionsDone = new(int32(n)) //nolint:gosec // read as 32 bits
	if both {
		into.SectionsTotal = new(int32(m)) //nolint:gosec // read as 32 bits
	}
	return nil
}

// ending is a way that a job's work, or the job, ends.
type ending struct {
	use, short string
	call       func(context.Context, glossladderv1.JobServiceClient, string, *glossladderv1.Entry, *glossladderv1.Closing) (*glossladderv1.RecordResponse, error)
}

var (
	finishing = ending{"finish JOB", "Say that the work is done; every planned step is done or left out", func(ctx context.Context, keeper glossladderv1.JobServiceClient, job string, entry *glossladderv1.Entry, closing *glossladderv1.Closing) (*glossladderv1.RecordResponse, error) {
		return keeper.FinishJob(ctx, &glossladderv1.FinishJobRequest{Name: job, Entry: entry, Closing: closing})
	}}
	handingOver = ending{"hand-over JOB", "Say that the owner has the vehicle", func(ctx context.Context, keeper glossladderv1.JobServiceClient, job string, entry *glossladderv1.Entry, closing *glossladderv1.Closing) (*glossladderv1.RecordResponse, error) {
		return keeper.HandOverJob(ctx, &glossladderv1.HandOverJobRequest{Name: job, Entry: entry, Closing: closing})
	}}
	cancelling = ending{"cancel JOB", "End a job early; what was taken off until then counts", func(ctx context.Context, keeper glossladderv1.JobServiceClient, job string, entry *glossladderv1.Entry, closing *glossladderv1.Closing) (*glossladderv1.RecordResponse, error) {
		return keeper.CancelJob(ctx, &glossladderv1.CancelJobRequest{Name: job, Entry: entry, Closing: closing})
	}}
)

func (p *program) endJob(end ending) *cobra.Command {
	var k kept
	var note string
	cmd := &cobra.Command{
		Use: end.use, Short: end.short, Args: oneNamed("job"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.recordCall(cmd.Context(), &k, func(ctx context.Context, keeper glossladderv1.JobServiceClient, entry *glossladderv1.Entry) (*glossladderv1.RecordResponse, error) {
				return end.call(ctx, keeper, named("jobs", args[0]), entry, &glossladderv1.Closing{Note: note})
			})
		}),
	}
	cmd.Flags().StringVar(&note, "note", "", "a note for people: what was left on purpose and why, advice on care")
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}
