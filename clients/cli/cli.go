package cli

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// program is one run of the command line.
type program struct {
	in       io.Reader
	out, err io.Writer

	color  choice
	output choice
	// full gives the reason of every caution too.
	full bool
	// rulesDir is the folder of the rule set in force, "" for the shipped one.
	rulesDir string
	// stateDir is the folder where services remember rule sets, "" where none is asked for.
	stateDir string
	// data is where a service in this process keeps vehicles and jobs, "" where none are asked for.
	data string
	// server is the address of a running service, "" for one in this process.
	server string
	// at is how to get into that service.
	at elsewhere
}

// Run runs one command line, without the program's name, and returns the exit code: 0 done, 1 failed, 2 the command line
// is wrong, 3 rule files have problems, 4 rule cases failed.
func Run(args []string, in io.Reader, out, err io.Writer) int {
	p := &program{
		in: in, out: out, err: err,
		color:  choice{value: "auto", words: []string{"auto", "always", "never"}},
		output: choice{value: "text", words: []string{"text", "json"}},
	}
	root := p.root()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(err)
	cmd, failure := root.ExecuteContextC(context.Background())
	return p.exit(cmd, failure)
}

func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "glossladder",
		Short: "From an inspection to a proven ladder of polishing steps",
		Long: "Glossladder takes what you found and measured on a vehicle's paint and answers with a ladder, the polishing steps\n" +
			"in their order, with settings, cautions and the reason for each. A test spot then proves it.\n\n" +
			"Begin with: glossladder demo\n" +
			"Then:       glossladder recommend --template > job.yaml, fill it in, glossladder recommend job.yaml",
		SilenceUsage: true, SilenceErrors: true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
	}
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), "FlagUsages", fmt.Sprintf("FlagUsagesWrapped %d", widest)))
	root.PersistentFlags().Var(&p.color, "color", "mark text with colours: auto (on a terminal, unless NO_COLOR is set), always, never")
	root.AddCommand(p.demo(), p.recommend(), p.judge(), p.explain(), p.estimate(), p.plan(), p.vehicles(), p.job(), p.readings(), p.report(), p.lessons(), p.webhooks(), p.dataCommands(), p.rules(), p.serve(), p.keys(), p.version())
	return root
}
