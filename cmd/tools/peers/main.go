// Command peers measures the rule engine against general ones with the same generated tables, and prints the figures as
// Markdown. It has a module of its own so that no other engine enters the program's.
//
//	npm ci --prefix node
//	go run . -page ../../../rules/BENCHMARKS.md
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/glossladder/glossladder/cmd/tools/peers/bench"
	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/page"
	"github.com/glossladder/glossladder/cmd/tools/peers/serve"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, in io.Reader, out, complaints io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	err := do(ctx, args, in, out, complaints)
	if err != nil {
		fmt.Fprintln(complaints, "peers:", err)
		return 1
	}
	return 0
}

type options struct {
	sizes string
	node  string
	page  string
	plan  bench.Plan
	serve string
}

func do(ctx context.Context, args []string, in io.Reader, out, progress io.Writer) error {
	var o options
	flags := flag.NewFlagSet("peers", flag.ContinueOnError)
	flags.SetOutput(progress)
	flags.StringVar(&o.sizes, "sizes", "10,100,1000,10000", "numbers of rules")
	flags.StringVar(&o.node, "node", "node", "folder of the Node engine; empty: leave it out")
	flags.StringVar(&o.page, "page", "", "file to put the figures into, between its marks; empty: print them")
	flags.IntVar(&o.plan.Points, "points", 64, "inputs for each table")
	flags.IntVar(&o.plan.Rounds, "rounds", 9, "times that each engine is measured, in turn")
	flags.DurationVar(&o.plan.Slice, "slice", 200*time.Millisecond, "least time of one measurement")
	flags.DurationVar(&o.plan.Limit, "limit", 2*time.Minute, "most time for a load, or for one pass over the inputs")
	flags.DurationVar(&o.plan.Patience, "patience", 30*time.Second, "most time for all rounds of one engine in one way")
	flags.StringVar(&o.serve, "serve", "", "be the engine of this name, for another run of this program")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return nil
	} else if err != nil {
		return err
	}
	if o.serve != "" {
		return serveOne(o.serve, in, out)
	}
	return measure(ctx, o, out, progress)
}

func serveOne(name string, in io.Reader, out io.Writer) error {
	for _, m := range engine.Makers() {
		if m.Name == name {
			return serve.Serve(in, out, m.Make)
		}
	}
	return fmt.Errorf("there is no engine %q", name)
}

func measure(ctx context.Context, o options, out, progress io.Writer) error {
	list, err := peers(o.node)
	if err != nil {
		return err
	}
	figures := page.Figures{Peers: list, Plan: o.plan}
	for text := range strings.SplitSeq(o.sizes, ",") {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 {
			return fmt.Errorf("%q is no number of rules", text)
		}
		figures.Sizes = append(figures.Sizes, n)
	}
	slices.Sort(figures.Sizes)
	for _, shape := range table.Shapes() {
		s := page.Shape{Name: shape.Name}
		for _, n := range figures.Sizes {
			began := time.Now()
			results, err := bench.Table(ctx, list, o.plan, shape, n)
			if err != nil {
				return fmt.Errorf("%s, %d rules: %w", shape.Name, n, err)
			}
			s.Results = append(s.Results, results)
			fmt.Fprintf(progress, "%s, %d rules: %s\n", shape.Name, n, time.Since(began).Round(time.Second))
		}
		figures.Shapes = append(figures.Shapes, s)
	}
	return write(o.page, conditions(figures)+figures.Write(), out)
}

func write(file, figures string, out io.Writer) error {
	if file == "" {
		_, err := io.WriteString(out, figures)
		return err
	}
	old, err := os.ReadFile(file)
	if err != nil {
		return fmt.Errorf("read the page: %w", err)
	}
	text, err := page.Replace(string(old), figures)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return os.WriteFile(file, []byte(text), 0o644)
}

// peers are the engines of this program, each in a process of its own, and that of Node.
func peers(node string) ([]bench.Peer, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, fmt.Errorf("find this program: %w", err)
	}
	var out []bench.Peer
	for _, m := range engine.Makers() {
		out = append(out, bench.Peer{Name: m.Name, How: m.How, Reference: m.Reference, Command: []string{self, "-serve", m.Name}})
	}
	if node == "" {
		return out, nil
	}
	if _, err := os.Stat(filepath.Join(node, "node_modules")); err != nil {
		return nil, fmt.Errorf("the Node engine is not installed: run npm ci in %s, or leave it out with -node ''", node)
	}
	return append(out, bench.Peer{
		Name: "json-rules-engine",
		How: "falling priorities, and the first success stops the engine, faster than asking all; the clauses of a rule have falling " +
			"priorities too, so that the first that fails ends it. Its explanation, a result for each rule asked with the clauses asked, is always on",
		Command: []string{"node", "--expose-gc", filepath.Join(node, "peer.mjs")},
	}), nil
}
