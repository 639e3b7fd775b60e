package hindsight_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/vocabulary"
)

func ptr[T any](v T) *T { return &v }

// edit is a text of a rule file, everywhere in it, that becomes another.
type edit struct{ file, from, to string }

var schema = sync.OnceValues(vocabulary.Schema)

// set is the shipped set with edits, without its worked cases.
func set(t testing.TB, edits ...edit) *rules.Set {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(shipped.Files(), "*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		text, err := fs.ReadFile(shipped.Files(), name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: text}
	}
	for _, e := range edits {
		was := string(files[e.file].Data)
		is := strings.ReplaceAll(was, e.from, e.to)
		require.NotEqual(t, was, is, "%s does not hold %q", e.file, e.from)
		files[e.file] = &fstest.MapFile{Data: []byte(is)}
	}
	vocabulary, err := schema()
	require.NoError(t, err)
	out, err := rules.Load(files, vocabulary, rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	return out
}

func adviser(t testing.TB, set *rules.Set) *advisor.Advisor {
	t.Helper()
	document, _ := set.Document("catalogue.yaml")
	a, err := advisor.New(set, document.(*catalogue.Catalogue))
	require.NoError(t, err)
	return a
}

// sheetsOf are an adviser's notes as the record keeps them.
func sheetsOf(r *advisor.Record) []history.FactSheet {
	var out []history.FactSheet
	for i := range r.Sheets {
		sheet := history.FactSheet{Panel: r.Panel, About: r.Sheets[i].About, Facts: factsOf(r.Sheets[i].Facts)}
		for _, a := range r.Sheets[i].Answers {
			sheet.Answers = append(sheet.Answers, history.TableAnswer(a))
		}
		out = append(out, sheet)
	}
	return out
}

func factsOf(in *rules.Input) map[string]any {
	out := map[string]any{}
	for i, fact := range in.Schema().Facts() {
		id := rules.FactID(i)
		if v, ok := in.Number(id); ok {
			out[fact.Name] = v
		} else if w, ok := in.Word(id); ok {
			out[fact.Name] = w
		} else if yes, ok := in.Flag(id); ok {
			out[fact.Name] = yes
		}
	}
	return out
}

// anyPanel is a panel as it may come (invented).
func anyPanel(r *rand.Rand, id string) advisor.Panel {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	maybe := func(v float64) *float64 {
		if r.IntN(5) == 0 {
			return nil
		}
		return &v
	}
	p := advisor.Panel{
		ID: id, Part: pick("bonnet", "roof", "door"), Substrate: pick("steel", "aluminium"),
		Paint: advisor.Paint{
			System: pick("clear-coat", "clear-coat", "clear-coat", "single-stage", "matte", ""), Softness: pick("very-soft", "soft", "medium", "hard", "very-hard", ""),
			Shade: pick("light", "medium", "dark", ""), AgeYears: maybe(float64(r.IntN(40))),
		},
		PanelC: maybe(float64(5 + r.IntN(50))), Clean: ptr(r.IntN(6) > 0), RepaintKnown: ptr(r.IntN(8) == 0),
	}
	for range 1 + r.IntN(3) {
		p.Defects = append(p.Defects, advisor.Defect{
			Kind: pick("wash-marks", "wash-marks", "deep-scratches", "holograms", "oxidation", "water-spot-etching", "chips"), Severity: maybe(float64(r.IntN(11)) / 2),
		})
	}
	if r.IntN(4) > 0 {
		um := 70 + 130*r.Float64()
		p.Film = []advisor.FilmSpot{
			{Spot: "a", TotalUm: []float64{um, um + 1, um + 0.5}}, {Spot: "b", TotalUm: []float64{um + 3, um + 4, um + 2}},
		}
		p.FilmTakenUm = maybe(float64(r.IntN(40)) / 10)
	}
	return p
}

func anyInspection(r *rand.Rand, panels int) advisor.Inspection {
	in := advisor.Inspection{
		Goal:       advisor.Goal{Level: []string{"freshen", "enhance", "correct", "show", ""}[r.IntN(5)]},
		GlossMeter: advisor.GlossMeter{AccuracyGU: 1, ResolutionGU: 0.1, ResolutionHU: 0.1},
		FilmGauge:  film.Gauge{Kind: film.Combined, Accuracy: film.Accuracy{FixedUm: 1, Percent: 1}, StepUm: 0.1},
	}
	for i := range panels {
		in.Panels = append(in.Panels, anyPanel(r, fmt.Sprintf("panel-%d", i)))
	}
	return in
}

// job is events being written down.
type job struct {
	id     string
	events []history.Event
}

func newJob(id string) *job {
	j := &job{id: id}
	j.add(&history.Booked{Vehicle: "car"})
	return j
}

func (j *job) add(body history.Body) int64 {
	sequence := int64(len(j.events)) + 1
	j.events = append(j.events, history.Event{Job: j.id, Sequence: sequence, Body: body})
	return sequence
}

// inspect records an inspection and the advice on it.
func (j *job) inspect(t testing.TB, a *advisor.Advisor, in advisor.Inspection) {
	t.Helper()
	found := &history.Inspection{}
	for _, p := range in.Panels {
		seen := history.PanelFound{ID: p.ID, Softness: p.Paint.Softness, Shade: p.Paint.Shade}
		for _, d := range p.Defects {
			seen.Defects = append(seen.Defects, history.Defect{Kind: d.Kind, Severity: d.Severity})
		}
		found.Panels = append(found.Panels, seen)
	}
	j.add(found)
	said, records, err := a.RecommendForRecord(in)
	require.NoError(t, err)
	decision := &history.Decision{RuleSet: a.RuleSet()}
	for i := range records {
		decision.Panels = append(decision.Panels, history.PanelDecided{Panel: records[i].Panel, Ladder: said.Panels[i].Ladder})
		decision.Sheets = append(decision.Sheets, sheetsOf(&records[i])...)
	}
	j.add(decision)
}

// try records a trial and the verdict on it.
func (j *job) try(panel, step, verdict string, minutes float64) {
	trial := j.add(&history.Trial{Panel: panel, Step: step, Minutes: &minutes})
	j.add(&history.Decision{RuleSet: "h", Trial: trial, Panels: []history.PanelDecided{{Panel: panel, Verdict: verdict}}})
}

// marked is one panel with wash marks in medium paint and film to spare, which the shipped rules start with a polish (invented).
func marked(severity float64) advisor.Inspection {
	in := anyInspection(rand.New(rand.NewPCG(1, 1)), 1)
	in.Goal.Level = "correct"
	in.Panels[0] = advisor.Panel{
		ID: "bonnet", Substrate: "steel", Paint: advisor.Paint{System: "clear-coat", Softness: "medium", Shade: "dark", AgeYears: ptr(5.0)},
		Film:    []advisor.FilmSpot{{Spot: "a", TotalUm: []float64{140, 141, 139}}, {Spot: "b", TotalUm: []float64{142, 143, 141}}},
		Defects: []advisor.Defect{{Kind: "wash-marks", Severity: &severity}}, Clean: ptr(true), RepaintKnown: ptr(false),
	}
	return in
}
