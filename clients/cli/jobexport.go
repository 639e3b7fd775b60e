package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) exportJob() *cobra.Command {
	var to string
	var all bool
	cmd := &cobra.Command{
		Use:   "export JOB...",
		Short: "Write jobs as lines of JSON: everything that is kept of them",
		Long: "Writes each job with its vehicle, the rule sets that decided in it and every event, as lines of JSON (JSON Lines). job import\n" +
			"reads them again, here or elsewhere, and the job is what it was.",
		Example: "  glossladder job export blue-estate-spring --to spring.jsonl\n  glossladder job export --all --to jobs.jsonl",
		Args: func(cmd *cobra.Command, args []string) error {
			if (len(args) == 0) != all {
				return &usageError{"name the jobs, or say --all: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if all {
				jobs, err := p.jobPages(cmd.Context(), &glossladderv1.ListJobsRequest{}, 1<<30)
				if err != nil {
					return err
				}
				for i := len(jobs.GetJobs()) - 1; i >= 0; i-- { // the oldest first, as they came
					args = append(args, jobs.GetJobs()[i].GetName())
				}
			}
			return p.unknownTo(p.export(cmd.Context(), args, to), "glossladder job list")
		}),
	}
	cmd.Flags().StringVar(&to, "to", "", "new file to write to (left out: standard output)")
	cmd.Flags().BoolVar(&all, "all", false, "every job")
	p.reachable(cmd)
	p.dataFlag(cmd)
	return cmd
}

// export writes jobs; a file that is there is not written over, and one that was not finished is taken away.
func (p *program) export(ctx context.Context, jobs []string, to string) (err error) {
	out := p.out
	if to != "" {
		file, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
		if err != nil {
			return err
		}
		out = file
		written := false
		defer func() {
			err := errors.Join(file.Sync(), file.Close())
			if !written || err != nil {
				_ = os.Remove(to)
			}
		}()
		if err := p.exportTo(ctx, jobs, out); err != nil {
			return err
		}
		written = true
		fmt.Fprintf(p.err, "%s: %s\n", to, count(len(jobs), "job", "jobs"))
		return nil
	}
	return p.exportTo(ctx, jobs, out)
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func (p *program) exportTo(ctx context.Context, jobs []string, out io.Writer) error {
	lines := bufio.NewWriter(out)
	err := p.carry(ctx, func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
		for _, job := range jobs {
			stream, err := keeper.ExportJob(ctx, &glossladderv1.ExportJobRequest{Name: named("jobs", job)})
			if err != nil {
				return err
			}
			for {
				line, err := stream.Recv()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					return err
				}
				if _, err := lines.WriteString(line.GetLine() + "\n"); err != nil {
					return err
				}
			}
		}
		return nil
	})
	return errors.Join(err, lines.Flush())
}

// longestLine is more than any event may be.
const longestLine = 8 << 20

func (p *program) importJobs() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "import FILE|-",
		Short: "Take in jobs that were exported, as they were",
		Long: "Reads what job export wrote. A job that is here already gains the events that it lacks; one that went another way here is\n" +
			"refused. Each job is taken in whole or not at all.",
		Args: oneNamed("file"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			in := p.in
			if args[0] != fromStdin {
				file, err := os.Open(args[0])
				if err != nil {
					return err
				}
				defer func() { _ = file.Close() }()
				in = file
			}
			return p.importFrom(cmd.Context(), in, args[0])
		}),
	}
	p.reachable(cmd)
	p.dataFlag(cmd)
	p.outputFlag(cmd)
	return cmd
}

func (p *program) importFrom(ctx context.Context, in io.Reader, name string) error {
	lines := bufio.NewScanner(in)
	lines.Buffer(make([]byte, 0, 64<<10), longestLine)
	return p.carry(ctx, func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
		first := 1
		for lines.Scan() {
			answer, read, err := importOne(ctx, keeper, lines)
			if err != nil {
				fmt.Fprintf(p.err, "%s: the job that begins on line %d was not taken in\n", name, first)
				return err
			}
			first += read
			if err := p.tookIn(answer); err != nil {
				return err
			}
		}
		return lines.Err()
	})
}

// importOne sends the lines of one job, of which the first was scanned, up to its end.
func importOne(ctx context.Context, keeper glossladderv1.JobServiceClient, lines *bufio.Scanner) (answer *glossladderv1.ImportJobResponse, read int, err error) {
	stream, err := keeper.ImportJob(ctx)
	if err != nil {
		return nil, 0, err
	}
	for {
		read++
		err := stream.Send(&glossladderv1.ImportJobRequest{Line: lines.Text()})
		if errors.Is(err, io.EOF) {
			break // the service has made up its mind, and says so on receiving
		}
		if err != nil {
			return nil, read, err
		}
		if isEnd(lines.Text()) || !lines.Scan() {
			break
		}
	}
	answer, err = stream.CloseAndRecv()
	return answer, read, err
}

// isEnd tells the last line of a job.
func isEnd(line string) bool { return len(line) > 7 && line[:7] == `{"end":` }

func (p *program) tookIn(answer *glossladderv1.ImportJobResponse) error {
	if p.asJSON() {
		return p.json(answer)
	}
	job := idOf(answer.GetJob().GetName())
	switch {
	case answer.GetAddedEvents() == 0:
		fmt.Fprintf(p.out, "%s   was here already\n", job)
	case answer.GetVehicleMade():
		fmt.Fprintf(p.out, "%s   %s, with its vehicle %s\n", job, count(int(answer.GetAddedEvents()), "event", "events"), idOf(answer.GetJob().GetVehicle()))
	default:
		fmt.Fprintf(p.out, "%s   %s\n", job, count(int(answer.GetAddedEvents()), "event", "events"))
	}
	return nil
}
