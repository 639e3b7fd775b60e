package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) replayRules() *cobra.Command {
	var dir string
	var most int
	var hints bool
	cmd := &cobra.Command{
		Use:   "replay --with DIR",
		Short: "Hold an edited rule set against every decision on record",
		Long: "Asks the rules of DIR what every recorded decision was asked, with the facts as they were seen, and tells what would be\n" +
			"answered otherwise, by class of panel; and where trials came to an end, which of the two answers the outcome speaks for: trials\n" +
			"saved, minutes saved, film saved. Below stands what such a comparison cannot tell. Nothing is changed.\n\n" +
			"With --hints: which bounds of the rules in force the outcomes speak against, as glossladder history hints tells.\n" + exitCodeHelp,
		Example: "  glossladder rules replay --with my-rules\n  glossladder rules replay --hints",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			if hints {
				if dir != "" {
					return &usageError{"--with and --hints exclude each other: hints are about the rules in force"}
				}
				return p.tellHints(cmd.Context(), &glossladderv1.ListRuleHintsRequest{}, most)
			}
			if dir == "" {
				return &usageError{"name the folder of the edited rules: " + cmd.CommandPath() + " --with DIR"}
			}
			return p.replay(cmd.Context(), dir, most)
		}),
	}
	cmd.Flags().StringVar(&dir, "with", "", "folder of the edited rules")
	cmd.Flags().IntVar(&most, "most", 10, "how many classes and changes to show; 0: all")
	cmd.Flags().BoolVar(&hints, "hints", false, "name bounds of the rules in force that outcomes speak against")
	p.keeps(cmd)
	return cmd
}

func (p *program) replay(ctx context.Context, dir string, most int) (err error) {
	edited, err := p.load([]string{dir}) // every mistake of the files, with its place
	if err != nil {
		return err
	}
	p.rulesDir = "" // it is not the set in force
	request := &glossladderv1.ReplayRulesRequest{Files: map[string]string{}}
	for _, name := range edited.Files() {
		text, _ := edited.Source(name)
		request.Files[name] = string(text)
	}
	if err := p.settle(); err != nil {
		return err
	}
	connection, end, err := p.connect()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, end()) }()
	stream, err := glossladderv1.NewHistoryServiceClient(connection).ReplayRules(ctx, request)
	if err != nil {
		return err
	}
	report, err := p.follow(stream.Recv)
	if err != nil {
		return err
	}
	if p.asJSON() {
		return p.json(report)
	}
	return page.Replay(p.out, report, dir, most, p.style())
}

// follow shows how far a replay is, on a terminal alone, until its report comes.
func (p *program) follow(next func() (*glossladderv1.ReplayRulesResponse, error)) (*glossladderv1.ReplayReport, error) {
	shown := false
	defer func() {
		if shown {
			fmt.Fprint(p.err, "\r\x1b[K")
		}
	}()
	for {
		said, err := next()
		if errors.Is(err, io.EOF) {
			return nil, errors.New("the service ended the replay without a report; run it again")
		}
		if err != nil {
			return nil, err
		}
		if report := said.GetReport(); report != nil {
			return report, nil
		}
		if isTerminal(p.err) {
			shown = true
			fmt.Fprintf(p.err, "\r%d decisions asked again", said.GetDecisionsDone())
		}
	}
}
