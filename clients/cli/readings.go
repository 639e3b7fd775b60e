package cli

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// readings is the group of commands about files that gauges and meters write.
func (p *program) readings() *cobra.Command {
	return group("readings", "Import what gauges and meters write",
		"Gauges and meters name their columns as they like. Say once which column is which, under a name for the gauge, and it is\n"+
			"remembered for its next file.", p.importCommand(), p.sourcesCommand())
}

// gaugeFlags say how a gauge's file is read.
type gaugeFlags struct {
	source                  string
	columns, panels         []string
	panel, spot, when, step string
	decimal                 choice
	leftAsSet               bool
	preview, again          bool
}

func newGaugeFlags() *gaugeFlags {
	return &gaugeFlags{decimal: choice{value: "auto", words: []string{"auto", "comma", "point"}}}
}

// momentFlags are those that hold for every row.
func (g *gaugeFlags) momentFlags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&g.when, "when", "", "when every row was read: before, during, after (left out: the column when)")
	cmd.Flags().StringVar(&g.step, "step", "", "the step that was being worked, or was worked last")
	cmd.Flags().BoolVar(&g.leftAsSet, "gauge-left-as-set", false, "the film gauge was not zeroed or adjusted since the inspection")
	cmd.Flags().BoolVar(&g.preview, "preview", false, "show what would be recorded, row by row, and record nothing")
	cmd.Flags().BoolVar(&g.again, "again", false, "record readings that are on record already once more")
}

func (g *gaugeFlags) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&g.source, "source", "", "name of the gauge or meter; how its columns are read is remembered under it")
	cmd.Flags().StringArrayVar(&g.columns, "column", nil, "which column is which, as film_um=\"Thickness\"; ours are "+strings.Join(intake.GaugeColumns(), ", "))
	cmd.Flags().StringArrayVar(&g.panels, "panel-word", nil, "the file's word for a panel, as bonnet=\"HOOD\"")
	cmd.Flags().StringVar(&g.panel, "panel", "", "the panel of every row that names none")
	cmd.Flags().StringVar(&g.spot, "spot", "", "the spot of every row that names none")
	cmd.Flags().Var(&g.decimal, "decimal", "what stands before decimals in the file")
	g.momentFlags(cmd)
}

// mapping is what the command line says of the file.
func (g *gaugeFlags) mapping() (intake.Mapping, error) {
	m := intake.Mapping{Columns: map[string]string{}, Every: map[string]string{}, Panels: map[string]string{}}
	for _, pair := range g.columns {
		ours, theirs, ok := strings.Cut(pair, "=")
		if !ok || theirs == "" {
			return m, &usageError{fmt.Sprintf("--column %q: write film_um=\"Thickness\"", pair)}
		}
		m.Columns[strings.TrimSpace(ours)] = theirs
	}
	for _, pair := range g.panels {
		ours, theirs, ok := strings.Cut(pair, "=")
		if !ok || theirs == "" {
			return m, &usageError{fmt.Sprintf("--panel-word %q: write bonnet=\"HOOD\"", pair)}
		}
		m.Panels[strings.ToLower(strings.TrimSpace(theirs))] = strings.TrimSpace(ours)
	}
	for name, said := range map[string]string{"panel": g.panel, "spot": g.spot, "when": g.when, "step": g.step} {
		if said != "" {
			m.Every[name] = said
		}
	}
	if g.decimal.value != "auto" {
		m.Decimal = g.decimal.value
	}
	if err := m.Check(); err != nil {
		return m, &usageError{err.Error()}
	}
	return m, nil
}

func (p *program) importCommand() *cobra.Command {
	gauge := newGaugeFlags()
	var k kept
	cmd := &cobra.Command{
		Use:   "import JOB FILE|-",
		Short: "Record the readings of a file from a gauge or a meter, all of them or none",
		Long: "Reads CSV (commas, semicolons or tabs; what the gauge says of itself first is passed over) or JSON (objects in a list, one\n" +
			"a line, or in lists inside objects). Units may stand in the column's name or behind the number, decimals behind a point or a\n" +
			"comma. Each row is one reading of each instrument. Every mistake is told with its line, and then nothing is recorded.\n\n" +
			"With --source the columns are remembered, in sources.json in the user's data folder, and need not be told again.\n" +
			"What the job holds already is left out: the same file or the same readings a second time record nothing.",
		Example: "  glossladder readings import blue-estate-spring export.csv --source film-gauge --when before --preview \\\n" +
			"      --column panel=Part --column spot=Point --column film_um=Thickness --panel-word bonnet=HOOD\n" +
			"  glossladder readings import blue-estate-spring export.csv --source film-gauge --when before\n" +
			"  glossladder readings import blue-estate-spring meter.json --when during --step polish",
		Args: jobFile(new(bool)),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.importReadings(cmd.Context(), args[0], args[1], gauge, &k)
		}),
	}
	gauge.flags(cmd)
	k.entries(cmd)
	p.keeps(cmd)
	return cmd
}

// importReadings reads a gauge's file, leaves out what the job holds already, and records the rest.
func (p *program) importReadings(ctx context.Context, job, file string, flags *gaugeFlags, k *kept) error {
	said, err := flags.mapping()
	if err != nil {
		return err
	}
	remembered, err := rememberedSource(flags.source)
	if err != nil {
		return err
	}
	mapping := remembered.With(said)
	src, err := p.read(file)
	if err != nil {
		return err
	}
	gauge, problems := intake.ReadGauge(src, mapping)
	if len(problems) > 0 {
		fmt.Fprintln(p.err, problems.Error())
		return fmt.Errorf("%s: nothing was recorded", src.Name)
	}
	for _, r := range gauge.Readings {
		r.GaugeLeftAsSet = flags.leftAsSet
		r.Source = sourceName(flags.source, src.Name)
	}
	k.tryOnly = k.tryOnly || flags.preview
	byHand := k.requestID != ""
	entry, err := k.entry()
	if err != nil {
		return err
	}
	var answer *glossladderv1.RecordResponse
	var known []intake.OnRecord
	err = p.record(ctx, k, func(ctx context.Context, keeper glossladderv1.JobServiceClient) error {
		events, err := eventsOf(ctx, keeper, job)
		if err != nil {
			return err
		}
		if !flags.again {
			known = gauge.LeaveOut(events.GetEvents())
			if !byHand {
				k.requestID = importID(gauge.Readings, events.GetEvents())
			}
		}
		if len(gauge.Readings) == 0 {
			return nil
		}
		entry.RequestId = k.id()
		request := &glossladderv1.RecordReadingsRequest{Name: named("jobs", job), Entry: entry, Readings: gauge.Readings}
		answer, err = keeper.RecordReadings(ctx, request)
		return err
	})
	if err := allMistakes(nil, gauge.Places, err); err != nil {
		return p.unknownTo(err, "glossladder job list")
	}
	if err := rememberSource(flags.source, remembered, lasting(mapping)); err != nil {
		return err
	}
	return p.imported(gauge, known, answer, flags.preview, k)
}

// lasting is what of a mapping holds for the next file too: what was told of all rows of this one does not.
func lasting(m intake.Mapping) intake.Mapping {
	m.Every = nil
	return m
}

func (p *program) imported(gauge *intake.Gauge, known []intake.OnRecord, answer *glossladderv1.RecordResponse, preview bool, k *kept) error {
	if p.asJSON() {
		if answer == nil {
			answer = &glossladderv1.RecordResponse{}
		}
		return p.json(answer)
	}
	in := &page.Import{LeftOut: gauge.LeftOut, Preview: preview}
	for _, row := range gauge.Rows {
		out := page.ImportRow{Line: row.Line, Panel: row.Panel, Spot: row.Spot, When: row.When, Step: row.Step}
		for _, v := range row.Values {
			out.Values = append(out.Values, page.ImportValue{Column: v.Column, Value: v.Value})
		}
		in.Rows = append(in.Rows, out)
	}
	for _, o := range known {
		in.Known = append(in.Known, page.ImportKnown{Panel: o.PanelID, Values: o.Values, Events: o.Sequences})
	}
	if err := page.Imported(p.out, in, p.style()); err != nil || answer == nil {
		return err
	}
	return page.Recorded(p.out, answer, k.tryOnly, p.style())
}

// importID is the id of an import, made from what is recorded: two at the same time record once. A correction of the job makes it
// another one, so that what was withdrawn may be imported again.
func importID(readings []*glossladderv1.Readings, events []*glossladderv1.JobEvent) string {
	sum := sha256.New()
	for _, r := range readings {
		plain := proto.CloneOf(r)
		plain.Source = ""
		text, err := proto.MarshalOptions{Deterministic: true}.Marshal(plain)
		if err != nil {
			continue // readings that are about to be sent can be written
		}
		fmt.Fprintf(sum, "%d:%s", len(text), text)
	}
	for _, e := range events {
		if e.GetCorrection() != nil {
			fmt.Fprintf(sum, "corrected %d", e.GetSequence())
		}
	}
	return "import-" + hex.EncodeToString(sum.Sum(nil)[:16])
}

// sourceName says where readings came from, within what the contract keeps of it.
func sourceName(source, file string) string {
	name := filepath.Base(file)
	if source != "" {
		name = source + ": " + name
	}
	if r := []rune(name); len(r) > 200 {
		name = string(r[:200])
	}
	return name
}

func (p *program) sourcesCommand() *cobra.Command {
	var forget bool
	cmd := &cobra.Command{
		Use:   "sources [NAME]",
		Short: "Say how the files of each gauge are read, or forget one",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 || forget && len(args) == 0 {
				return &usageError{"name one gauge at most: " + cmd.Use}
			}
			return nil
		},
		RunE: running(func(_ *cobra.Command, args []string) error {
			all, err := readSources()
			if err != nil {
				return err
			}
			names := slices.Sorted(maps.Keys(all))
			if len(args) == 1 {
				if _, ok := all[args[0]]; !ok {
					return fmt.Errorf("nothing is remembered of %q; known are: %s", args[0], strings.Join(names, ", "))
				}
				names = args
			}
			if forget {
				delete(all, args[0])
				if err := writeSources(all); err != nil {
					return err
				}
				fmt.Fprintf(p.out, "How files of %s are read is forgotten.\n", args[0])
				return nil
			}
			if len(names) == 0 {
				fmt.Fprintln(p.out, "No gauge is known yet. Import a file with --source NAME, and how it is read is remembered.")
			}
			for _, name := range names {
				m := all[name]
				if err := page.Source(p.out, name, page.SourceWords{Columns: m.Columns, Every: m.Every, Panels: m.Panels, Decimal: m.Decimal}, p.style()); err != nil {
					return err
				}
			}
			return nil
		}),
	}
	cmd.Flags().BoolVar(&forget, "forget", false, "forget how its files are read")
	return cmd
}
