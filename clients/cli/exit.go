package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// The exit codes.
const (
	done         = 0
	failed       = 1
	wrongUsage   = 2
	faultyRules  = 3
	failedCases  = 4
	exitCodeHelp = "Exit codes: 0 done, 1 failed, 2 the command line is wrong, 3 rule files have problems, 4 rule cases failed."
)

// outcome is an error of a command that ran. Errors of any other type mean that the command line is wrong.
type outcome struct {
	code int
	err  error
}

func (o *outcome) Error() string { return o.err.Error() }
func (o *outcome) Unwrap() error { return o.err }

// usageError is a wrong command line that only the command itself could tell.
type usageError struct{ says string }

func (e *usageError) Error() string { return e.says }

// running makes a command's work, and tells its failures from wrong usage.
func running(work func(cmd *cobra.Command, args []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		err := work(cmd, args)
		if _, usage := errors.AsType[*usageError](err); err == nil || usage {
			return err
		}
		if _, told := errors.AsType[*outcome](err); told {
			return err
		}
		return &outcome{code: failed, err: err}
	}
}

// exit says what went wrong and returns the exit code. Problems of files stand one a line, ready for an editor to jump to.
func (p *program) exit(cmd *cobra.Command, err error) int {
	if err == nil {
		return done
	}
	told, ran := errors.AsType[*outcome](err)
	if !ran {
		fmt.Fprintf(p.err, "glossladder: %v\n", err)
		fmt.Fprintf(p.err, "See %s --help.\n", cmd.CommandPath())
		return wrongUsage
	}
	if problems, ok := errors.AsType[rules.Problems](err); ok {
		p.ruleProblems(problems)
		return faultyRules
	}
	if problems, ok := errors.AsType[strictyaml.Problems](err); ok {
		fmt.Fprintln(p.err, problems.Error())
		return told.code
	}
	if st, ok := statusIn(err); ok {
		fmt.Fprintf(p.err, "glossladder: %s\n", p.statusWords(st))
		return told.code
	}
	fmt.Fprintf(p.err, "glossladder: %v\n", err)
	return told.code
}

// ruleProblems prints the problems of rule files with the folder before each file.
func (p *program) ruleProblems(problems rules.Problems) {
	for _, problem := range problems {
		problem.File = filepath.Join(p.rulesDir, filepath.FromSlash(problem.File))
		fmt.Fprintln(p.err, problem.Error())
	}
	where := p.rulesDir
	if where == "" {
		where = "the shipped rules"
	}
	count := "1 problem"
	if len(problems) > 1 {
		count = fmt.Sprintf("%d problems", len(problems))
	}
	fmt.Fprintf(p.err, "%s: %s; nothing was loaded\n", where, count)
}

// statusIn finds the service's own error in one that was wrapped since. The library would put the wrapping into its message.
func statusIn(err error) (*status.Status, bool) {
	said, ok := errors.AsType[interface {
		error
		GRPCStatus() *status.Status
	}](err)
	if !ok {
		return nil, false
	}
	return said.GRPCStatus(), true
}

// statusWords is a service's error for a person.
func (p *program) statusWords(st *status.Status) string {
	switch why := p.distrusted(); {
	case st.Code() == codes.Unavailable && why != nil:
		return why.Error()
	case st.Code() == codes.Unavailable && p.server != "" && len(st.Details()) == 0 && !onlyHere(p.server):
		return fmt.Sprintf("no service answers at %s; on that machine, start one with: glossladder serve --lan", p.server)
	case st.Code() == codes.Unavailable && p.server != "" && len(st.Details()) == 0: // a service that answers says why it cannot
		return fmt.Sprintf("no service answers at %s; start one with: glossladder serve --listen %s", p.server, p.server)
	case st.Code() == codes.DeadlineExceeded:
		return "the service took too long to answer"
	}
	return strings.TrimSuffix(st.Message(), ".")
}
