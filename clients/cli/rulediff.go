package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/page"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/rules/provenance"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// difference is what rules diff was asked for.
type difference struct {
	*program
	accept string
	most   int
	budget int

	names [2]string
	sets  [2]*rules.Set
	base  *provenance.Record // where the second set comes from, nil when it does not say
}

func (p *program) diffRules() *cobra.Command {
	d := &difference{program: p}
	cmd := &cobra.Command{
		Use:   "diff [A] B",
		Short: "Tell how two rule sets differ: rule by rule, and where answers change",
		Long: "Compares the rules of folder B with those of folder A, or with the shipped ones; A or B may be \"shipped\".\n" +
			"Below the rules that differ stand the exact regions of input that get another answer, the largest first, each with\n" +
			"an example. What is not listed is proved to be answered as before.\n\n" +
			"An edit that makes an answer stronger, or leaves out a caution or another thing that was told, has to be accepted:\n" +
			"without --accept-stronger the command fails and prints the code to give. The code stands for just these regions; one\n" +
			"more needs another code, so it can stay in the script of a build server.\n" + exitCodeHelp,
		Example: "  glossladder rules diff my-rules\n" +
			"  glossladder rules diff my-rules-before my-rules\n" +
			"  glossladder rules diff my-rules --accept-stronger 3fa29c01b7de",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return &usageError{fmt.Sprintf("name one or two folders: %s [A] B", cmd.CommandPath())}
			}
			return nil
		},
		RunE: running(func(_ *cobra.Command, args []string) error { return d.run(args) }),
	}
	cmd.Flags().StringVar(&d.accept, "accept-stronger", "", "accept the stronger answers that this code stands for")
	cmd.Flags().IntVar(&d.most, "most", 5, "how many regions of one kind to show for a table; 0: all")
	cmd.Flags().BoolVar(&p.full, "full", false, "give also the bounds that keep a region clear of rules that come first")
	cmd.Flags().IntVar(&d.budget, "steps", compare.DefaultBudget, "how many steps to take for a table before it is not decided")
	cmd.Flags().VarP(&p.output, "output", "o", "text for people, json for programs")
	return cmd
}

func (d *difference) run(args []string) error {
	if d.most < 0 || d.budget < 1 {
		return &usageError{"--most takes a number from 0, --steps one from 1"}
	}
	if len(args) == 1 {
		args = []string{provenance.Shipped, args[0]}
		if err := d.readBase(args[1]); err != nil {
			return err
		}
	}
	for i, name := range args {
		d.names[i], d.rulesDir = name, ""
		var from []string
		if name != provenance.Shipped {
			from = []string{name}
		}
		var err error
		if d.sets[i], err = d.load(from); err != nil {
			return err
		}
	}
	report, err := compare.Sets(d.sets[0], d.sets[1], d.budget)
	if err != nil {
		return err
	}
	if d.asJSON() {
		err = d.plainJSON(d.json(report))
	} else {
		sheet := page.Difference{Report: report, A: d.names[0], B: d.names[1], Notes: d.notes(), Most: d.most}
		err = sheet.Difference(d.out, d.style())
	}
	return errors.Join(err, d.accepted(report))
}

// readBase reads where a folder comes from, if it says so.
func (d *difference) readBase(dir string) error {
	if dir == provenance.Shipped {
		return nil
	}
	src, err := os.ReadFile(filepath.Join(dir, rules.BaseFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	} else if err != nil {
		return err
	}
	record, err := provenance.Parse(filepath.Join(dir, rules.BaseFile), src)
	if problems, ok := errors.AsType[strictyaml.Problems](err); ok {
		return fmt.Errorf("%s; mend it or delete it, it only says where the rules come from", problems.Error())
	}
	d.base = &record
	return err
}

// moved says whether the shipped rules are others than those that were copied.
func (d *difference) moved() bool { return d.base != nil && d.base.Set != d.sets[0].Hash() }

// notes say where the second set comes from.
func (d *difference) notes() []string {
	switch {
	case d.base == nil && d.names[0] == provenance.Shipped && d.names[1] != provenance.Shipped:
		return []string{d.names[1] + " does not say what it was copied from."}
	case d.base == nil:
		return nil
	}
	copied := fmt.Sprintf("Copied from rule set %.12s, shipped with %s, on %s.", d.base.Set, d.base.Version, d.base.Copied.Format("2006-01-02"))
	if !d.moved() {
		return []string{copied}
	}
	return []string{
		copied,
		"The shipped rules have changed since, in " + strings.Join(d.base.Changed(d.sets[0]), ", ") + ". What follows is both: what was edited here, and what the shipped rules have moved on by.",
		"Edited here: " + someOr(d.base.Changed(d.sets[1]), "nothing") + ".",
	}
}

func someOr(names []string, none string) string {
	if len(names) == 0 {
		return none
	}
	return strings.Join(names, ", ")
}

// accepted refuses answers that are stronger and that nobody has accepted.
func (d *difference) accepted(report *compare.Report) error {
	code := report.Acceptance()
	if code == "" || code == d.accept {
		if code != "" && !d.asJSON() {
			fmt.Fprintf(d.out, "\nAccepted: %s.\n", graveWords(report))
		}
		return nil
	}
	way := fmt.Sprintf("if that is meant: glossladder rules diff %s --accept-stronger %s", strings.Join(d.asked(), " "), code)
	if d.accept != "" {
		return fmt.Errorf("%s; what was accepted as %s is something else; %s", graveWords(report), d.accept, way)
	}
	return fmt.Errorf("%s; %s", graveWords(report), way)
}

// asked are the folders as they are written on the command line.
func (d *difference) asked() []string {
	if d.names[0] == provenance.Shipped {
		return d.names[1:]
	}
	return d.names[:]
}

// graveWords say in how many regions of which tables answers are stronger.
func graveWords(report *compare.Report) string {
	var stronger, less, doubt []string
	for i := range report.Tables {
		t := &report.Tables[i]
		count := map[compare.Direction]int{}
		for k := range t.Effect.Regions {
			count[t.Effect.Regions[k].Direction]++
		}
		if n := count[compare.Stronger]; n > 0 {
			stronger = append(stronger, fmt.Sprintf("%s (%d)", t.Name, n))
		}
		if n := count[compare.Less]; n > 0 {
			less = append(less, fmt.Sprintf("%s (%d)", t.Name, n))
		}
		if t.Doubt() {
			doubt = append(doubt, t.Name)
		}
	}
	var parts []string
	for _, kind := range []struct {
		tables []string
		says   string
	}{{stronger, "answers get stronger in "}, {less, "things are told no more in "}, {doubt, "it is not decided whether answers get stronger in "}} {
		if len(kind.tables) > 0 {
			parts = append(parts, kind.says+strings.Join(kind.tables, ", "))
		}
	}
	return strings.Join(parts, "; ")
}
