package report_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

// The golden files are rewritten by go test ./service/report -update, and read by a person before they are kept.
var update = flag.Bool("update", false, "rewrite the golden files")

func made(t *testing.T, given report.Given) *report.Report {
	t.Helper()
	r, err := report.Make(given)
	require.NoError(t, err)
	return r
}

func set(t *testing.T, r *report.Report, locale string) *sheet.Sheet {
	t.Helper()
	l, err := words.For(locale)
	require.NoError(t, err)
	return r.Sheet(l, report.Options{Heading: "A shop that does not exist", Paper: sheet.A4})
}

func plain(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, s.Plain(&out))
	return out.String()
}

func html(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, s.HTML(&out))
	return out.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got, "%s", name)
}

func TestTheInventedJobInEveryLanguage(t *testing.T) {
	r := made(t, invented(t))
	for _, locale := range []string{"en", "de"} {
		s := set(t, r, locale)
		golden(t, "invented."+locale+".txt", plain(t, s))
		golden(t, "invented."+locale+".html", html(t, s))
	}
	assert.True(t, r.Complete())
}

func TestNoTextIsMissingInAnyLocale(t *testing.T) {
	r := made(t, invented(t))
	for _, locale := range words.Locales() {
		for _, text := range []string{plain(t, set(t, r, locale)), html(t, set(t, r, locale))} {
			assert.NotRegexp(t, `\[[a-z-]+\]|\{[a-z]+[|}]`, strings.ReplaceAll(text, "@media", ""), locale)
		}
	}
}

func TestDaysAreThoseOfTheZone(t *testing.T) {
	given := invented(t)
	assert.Contains(t, plain(t, set(t, made(t, given), "en")), "5 May 2026")
	given.Zone = nil
	assert.Contains(t, plain(t, set(t, made(t, given), "en")), "4 May 2026")
}

func TestFilmLeftKeepsTheHighEndOfWhatWasTaken(t *testing.T) {
	r := made(t, invented(t))
	bonnet := r.Panels[0].Film
	require.NotNil(t, bonnet.Left)
	assert.InDelta(t, 7.1-float64(bonnet.Taken.HighUm), bonnet.Left.LowUm, 1e-9)
	assert.InDelta(t, 7.1-float64(bonnet.Taken.LowUm), bonnet.Left.HighUm, 1e-9)
	boot := r.Panels[2].Film
	assert.Nil(t, boot.Taken)
	assert.Equal(t, &report.Left{}, boot.Left, "nothing was to spare and nothing was taken")
	assert.Nil(t, r.Panels[3].Film.Left, "film was not measured, which is not zero")
}

func TestWorkWithoutAFigureLeavesNoFigure(t *testing.T) {
	s := &story{t: t}
	s.tell(&history.Booked{Vehicle: "estate"}, said{})
	s.tell(&history.Inspection{Panels: []history.PanelFound{{ID: "roof"}}}, said{Inspection: &report.Inspected{}})
	s.tell(&history.Decision{RuleSet: "x", Panels: []history.PanelDecided{{Panel: "roof", Ladder: "finish"}}},
		said{Advice: map[string]*report.Advice{"roof": {Film: &report.FilmAdvice{LowestUm: 120, UsableUm: 7}}}})
	s.tell(&history.Progress{Panel: "roof", Step: "cut", State: history.Done}, said{})
	r := made(t, s.given())
	assert.Nil(t, r.Panels[0].Film.Left)
	text := plain(t, set(t, r, "en"))
	assert.Contains(t, text, "no figure for: cut")
	assert.Contains(t, text, "not finished; the job stands at “in work”")
	assert.False(t, r.Complete())
}

func TestAdviceFromBeforeACorrectionIsNotTold(t *testing.T) {
	s := &story{t: t}
	s.tell(&history.Booked{Vehicle: "estate"}, said{})
	inspection := &history.Inspection{Panels: []history.PanelFound{{ID: "roof"}}}
	s.tell(inspection, said{Inspection: &report.Inspected{}})
	s.tell(&history.Decision{RuleSet: "x", Panels: []history.PanelDecided{{Panel: "roof", Ladder: "finish"}}},
		said{Advice: map[string]*report.Advice{"roof": {Film: &report.FilmAdvice{LowestUm: 120, UsableUm: 7}}}})
	s.tell(&history.Correction{Sequence: 2, Why: "another gauge", Instead: inspection}, said{Inspection: &report.Inspected{}})
	r := made(t, s.given())
	assert.Nil(t, r.Panels[0].Advice, "it rests on readings that do not hold")
	assert.Equal(t, 1, r.Corrected)
}

func TestAJobWithNothingInItHasAReport(t *testing.T) {
	s := &story{t: t}
	s.tell(&history.Booked{Vehicle: "estate"}, said{})
	text := plain(t, set(t, made(t, s.given()), "en"))
	assert.Contains(t, text, "Nothing has been inspected yet.")
	assert.NotContains(t, text, "Looking after the paint")
}

func TestNothingThatAnybodyWroteBecomesMarkup(t *testing.T) {
	const evil = `<script>alert(1)</script>`
	given := invented(t)
	given.Vehicle.Label = evil
	for _, e := range given.Job.Events() {
		switch body := e.Body.(type) {
		case *history.HandedOver:
			body.Note = evil
		case *history.Plan:
			body.Note = evil
		case *history.Progress:
			body.Note = evil
		case *history.Booked:
			body.Label = evil
		}
	}
	given.Job = history.Replay(given.Job.Events())
	page := html(t, set(t, made(t, given), "en"))
	assert.NotContains(t, page, "<script")
	assert.GreaterOrEqual(t, strings.Count(page, "&lt;script&gt;"), 5)
}
