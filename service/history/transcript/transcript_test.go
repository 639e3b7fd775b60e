package transcript_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/transcript"
)

func onSQLite(t *testing.T) history.Store {
	store, err := sqlite.Open(t.Context(), filepath.Join(t.TempDir(), "jobs.db"))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	return store
}

var schemas int

// onPostgres opens a schema of its own on the server that the environment names.
func onPostgres(t *testing.T) history.Store {
	server := os.Getenv("GLOSSLADDER_POSTGRES_URL")
	if server == "" {
		t.Skip("NOT TESTED ON POSTGRESQL: set GLOSSLADDER_POSTGRES_URL to the URL of a server")
	}
	ctx := context.WithoutCancel(t.Context())
	schemas++
	schema := fmt.Sprintf("transcript_%d_%d", os.Getpid(), schemas)
	conn, err := pgx.Connect(ctx, server)
	require.NoError(t, err)
	t.Cleanup(func() {
		_, err := conn.Exec(ctx, "drop schema "+schema+" cascade")
		assert.NoError(t, err)
		assert.NoError(t, conn.Close(ctx))
	})
	_, err = conn.Exec(ctx, "create schema "+schema)
	require.NoError(t, err)
	at, err := url.Parse(server)
	require.NoError(t, err)
	query := at.Query()
	query.Set("search_path", schema)
	at.RawQuery = query.Encode()
	store, err := postgres.Open(ctx, at.String())
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	return store
}

func noon(minutes int) time.Time {
	return time.Date(2026, 3, 29, 12, minutes, 0, 123456000, time.FixedZone("far", 5*3600+45*60))
}

// visit stores a job with every sort of thing that an event holds.
func visit(t *testing.T, store history.Store) {
	v := history.Vehicle{
		ID: "car", Revision: 3, CreatedAt: history.Moment(noon(0)), UpdatedAt: history.Moment(noon(1)), Label: "Dark <blue> estate & é",
		VehicleTraits: history.VehicleTraits{Size: "medium", BuiltYear: 2017, Notes: "two\nlines", Paint: history.Paint{Shade: "dark", HazeProne: new(false)}},
	}
	_, err := store.SaveVehicle(t.Context(), v, 0, history.Request{})
	require.NoError(t, err)
	require.NoError(t, store.KeepRuleSet(t.Context(), "set-1", []byte(`{"start.yaml":"table: start\n"}`), noon(0)))
	book := history.NewBook(store)
	entry := func(n int) history.Entry {
		return history.Entry{Now: noon(n), RequestID: fmt.Sprint("request ", n), Print: "p", By: "bay 2", HappenedAt: noon(n - 5)}
	}
	_, err = book.Create(t.Context(), "visit", history.Booked{Vehicle: "car", Details: history.Details{Label: "spring"}}, entry(5))
	require.NoError(t, err)
	record := func(n int, bodies ...history.Body) {
		_, err := book.Record(t.Context(), "visit", entry(n), func(*history.Job) ([]history.Draft, error) {
			var out []history.Draft
			for _, body := range bodies {
				out = append(out, history.Draft{Body: body, Document: json.RawMessage(`{"as":  "given", "less": "<"}`)})
			}
			return out, nil
		})
		require.NoError(t, err)
	}
	record(6, &history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", Film: []history.FilmSpot{{Spot: "a", TotalUm: []float64{118.05}}}}}},
		&history.Decision{RuleSet: "set-1", Panels: []history.PanelDecided{{Panel: "bonnet", Ladder: "polish"}}, Sheets: []history.FactSheet{{Panel: "bonnet", Facts: map[string]any{"film.usable_um": 12.25, "paint.shade": "dark", "panel.clean": true}}}})
	record(7, &history.Readings{Panel: "bonnet", When: history.Before, Gloss: []history.GlossSpot{{Spot: "a", At60GU: []float64{82.1}}}})
	record(8, &history.Correction{Sequence: 4, Why: "wrong spot", Instead: &history.Readings{Panel: "bonnet", When: history.Before, PanelC: new(21.5)}})
	record(9, &history.Plan{Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "polish"}}}, &history.Progress{Panel: "bonnet", Step: "polish", State: history.Done, Minutes: new(12.5)}, &history.Finished{})
	record(10, &history.HandedOver{})
}

func linesOf(t *testing.T, store history.Store) []string {
	t.Helper()
	taken, err := transcript.Of(t.Context(), store, "visit")
	require.NoError(t, err)
	var out []string
	for text, err := range taken.Lines() {
		require.NoError(t, err)
		require.NotContains(t, string(text), "\n")
		out = append(out, string(text))
	}
	return out
}

func read(lines []string) (*transcript.Transcript, error) {
	var r transcript.Reader
	for _, text := range lines {
		if err := r.Add([]byte(text)); err != nil {
			return nil, err
		}
	}
	return r.Transcript()
}

func TestAJobComesBackAsItWas(t *testing.T) {
	stores := map[string]func(*testing.T) history.Store{"SQLite": onSQLite, "PostgreSQL": onPostgres}
	for from, open := range stores {
		for to, openTo := range stores {
			t.Run(from+" to "+to, func(t *testing.T) {
				here, there := open(t), openTo(t)
				visit(t, here)
				lines := linesOf(t, here)
				taken, err := read(lines)
				require.NoError(t, err)
				kept, err := taken.Keep(t.Context(), there, noon(60))
				require.NoError(t, err)
				assert.True(t, kept.VehicleMade)
				assert.Equal(t, 9, kept.Added)
				assert.Equal(t, lines, linesOf(t, there))

				was, err := history.NewBook(here).Job(t.Context(), "visit")
				require.NoError(t, err)
				is, err := history.NewBook(there).Job(t.Context(), "visit")
				require.NoError(t, err)
				assert.Equal(t, was.Summary, is.Summary)
				assert.Equal(t, was.Panels[0].Taken(), is.Panels[0].Taken())
				wasVehicle, err := here.Vehicle(t.Context(), "car")
				require.NoError(t, err)
				isVehicle, err := there.Vehicle(t.Context(), "car")
				require.NoError(t, err)
				assert.Equal(t, wasVehicle, isVehicle)
				files, err := there.RuleSet(t.Context(), "set-1")
				require.NoError(t, err)
				assert.JSONEq(t, `{"start.yaml":"table: start\n"}`, string(files))

				again, err := taken.Keep(t.Context(), there, noon(61))
				require.NoError(t, err)
				assert.Zero(t, again.Added, "a second time changes nothing")
				assert.False(t, again.VehicleMade)
			})
		}
	}
}

func TestAJobGainsOnlyWhatItLacks(t *testing.T) {
	here, there := onSQLite(t), onSQLite(t)
	visit(t, here)
	taken, err := read(linesOf(t, here))
	require.NoError(t, err)

	early := *taken
	early.Events = taken.Events[:4]
	_, err = early.Keep(t.Context(), there, noon(60))
	require.NoError(t, err)
	kept, err := taken.Keep(t.Context(), there, noon(61))
	require.NoError(t, err)
	assert.Equal(t, 5, kept.Added)
	assert.Equal(t, linesOf(t, here), linesOf(t, there))
	kept, err = early.Keep(t.Context(), there, noon(62))
	require.NoError(t, err)
	assert.Zero(t, kept.Added, "an older transcript takes nothing away")

	other := onSQLite(t)
	_, err = early.Keep(t.Context(), other, noon(60))
	require.NoError(t, err)
	_, err = history.NewBook(other).Record(t.Context(), "visit", history.Entry{Now: noon(70)}, func(*history.Job) ([]history.Draft, error) {
		return []history.Draft{{Body: &history.Cancelled{}}}, nil
	})
	require.NoError(t, err)
	before := linesOf(t, other)
	_, err = taken.Keep(t.Context(), other, noon(80))
	require.EqualError(t, err, "job visit is on record here already and went another way from event 5 on; export that one too and compare")
	assert.Equal(t, before, linesOf(t, other))
}

func TestATranscriptThatIsNotWholeIsRefused(t *testing.T) {
	store := onSQLite(t)
	visit(t, store)
	whole := linesOf(t, store)
	change := func(at int, old, text string) []string {
		lines := append([]string{}, whole...)
		require.Contains(t, lines[at], old)
		lines[at] = strings.Replace(lines[at], old, text, 1)
		return lines
	}
	for name, row := range map[string]struct {
		lines []string
		want  string
	}{
		"it breaks off":              {whole[:len(whole)-1], "line 13: the transcript breaks off here; its last line tells how many events there are"},
		"an event is missing":        {append(whole[:5:5], whole[6:]...), "line 6: event 2 is followed by event 4; one is missing or out of place"},
		"the last event is missing":  {append(whole[:11:11], whole[12]), "line 12: the transcript has 8 events, and had 9 when it was written"},
		"it goes on":                 {append(whole[:13:13], whole[12]), "line 14: the transcript has ended before it"},
		"no transcript":              {[]string{`{"readings":1}`}, `line 1: json: unknown field "readings"`},
		"no JSON":                    {[]string{`hello`}, "line 1: invalid character 'h' looking for beginning of value"},
		"of a later program":         {change(0, `"transcript":1`, `"transcript":2`), "line 1: the transcript is of version 2, and this program reads 1; use a later program"},
		"an event of a later one":    {change(4, `"version":1`, `"version":9`), "line 5: inspection is of version 9, and this program reads 1; use a later program"},
		"another vehicle":            {change(3, `"vehicle":"car"`, `"vehicle":"van"`), "line 4: the job is of vehicle van, and the transcript tells of car"},
		"an event that cannot be":    {change(10, `"finished"`, `"handed-over"`), "line 11: job visit is in work: the work has to be finished first; to end the job without, cancel it"},
		"a clock that ran backwards": {change(5, `"recorded_at":"2026-03-29T06:21:`, `"recorded_at":"2026-03-29T06:19:`), "line 6: event 3 was recorded before the event before it, or it does not say when"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := read(row.lines)
			require.EqualError(t, err, row.want)
		})
	}
}

func FuzzRead(f *testing.F) {
	f.Add(`{"transcript":1,"job":"a"}` + "\n" + `{"vehicle":{"id":"car","revision":1,"created_at":"2026-01-01T00:00:00Z","updated_at":"2026-01-01T00:00:00Z","label":"car"}}` + "\n" +
		`{"event":{"sequence":1,"recorded_at":"2026-01-01T00:00:00Z","kind":"booked","version":1,"body":{"vehicle":"car"}}}` + "\n" + `{"end":{"events":1}}`)
	f.Add(`{"rule_set":{"hash":"a","files":"b"}}`)
	f.Fuzz(func(t *testing.T, text string) {
		taken, err := read(strings.Split(text, "\n"))
		if err != nil {
			return
		}
		var lines []string
		for l, err := range taken.Lines() {
			require.NoError(t, err)
			lines = append(lines, string(l))
		}
		again, err := read(lines)
		require.NoError(t, err, "what was written is read again")
		require.Equal(t, taken.Job(), again.Job())
		require.Len(t, again.Events, len(taken.Events))
	})
}
