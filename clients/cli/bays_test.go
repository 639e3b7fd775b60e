package cli_test

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two services on one record, and commands that open it themselves, ask for the same bay at once: one of all gets a fixed time, and
// work that is laid into the bay lies apart.
func TestManyProcessesBookOneBay(t *testing.T) {
	program := build(t)
	records := map[string]string{"SQLite": filepath.Join(t.TempDir(), "jobs.db")}
	if server := os.Getenv("GLOSSLADDER_POSTGRES_URL"); server != "" {
		records["PostgreSQL"] = freshSchema(t, server)
	}
	for name, data := range records {
		t.Run(name, func(t *testing.T) { bookAtOnce(t, program, data) })
	}
}

// freshSchema makes a schema for the test and gives a URL that keeps to it.
func freshSchema(t *testing.T, server string) string {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), server)
	require.NoError(t, err)
	schema := fmt.Sprintf("bays_%d", os.Getpid())
	_, err = conn.Exec(t.Context(), "create schema "+schema)
	require.NoError(t, err)
	t.Cleanup(func() {
		_, _ = conn.Exec(context.Background(), "drop schema "+schema+" cascade")
		_ = conn.Close(context.Background())
	})
	at, err := url.Parse(server)
	require.NoError(t, err)
	query := at.Query()
	query.Set("search_path", schema)
	at.RawQuery = query.Encode()
	return at.String()
}

func bookAtOnce(t *testing.T, program, data string) {
	t.Helper()
	const each = 4
	doors := [][]string{{"--server", serve(t, program, "--data", data).address}, {"--server", serve(t, program, "--data", data).address}, {"--data", data}}
	run := func(args ...string) string {
		out, code := command(t, program, append(args, doors[0]...)...)
		require.Zero(t, code, out)
		return out
	}
	run("vehicle", "new", "invented estate", "--id", "estate", "--size", "medium")
	for i := range each * len(doors) {
		run("job", "new", "estate", "--id", fmt.Sprintf("job-%d", i))
	}
	inspection := filepath.Join(stories, "returning-vehicle", "first-visit.yaml")
	all := func(args func(i int) []string) (outs []string, codes []int) {
		outs, codes = make([]string, each*len(doors)), make([]int, each*len(doors))
		var together sync.WaitGroup
		for i := range outs {
			together.Go(func() { outs[i], codes[i] = command(t, program, append(args(i), doors[i%len(doors)]...)...) })
		}
		together.Wait()
		return outs, codes
	}

	outs, codes := all(func(i int) []string {
		return []string{"job", "book", fmt.Sprintf("job-%d", i), "--bay", "bay-1", "--start", "2027-03-01 08:00", "--until", "2027-03-01 12:00", "--zone", "UTC"}
	})
	won := 0
	for i, out := range outs {
		if codes[i] == 0 {
			won++
			continue
		}
		assert.Contains(t, out, "bay-1 is taken: job job-")
	}
	require.Equal(t, 1, won, strings.Join(outs, "\n"))

	for i := range each * len(doors) {
		run("job", "record", fmt.Sprintf("job-%d", i), inspection)
	}
	outs, codes = all(func(i int) []string {
		return []string{"job", "book", fmt.Sprintf("job-%d", i), "--bay", "bay-2", "--start", "2027-03-01 08:00", "--open", "Mon-Sun 00:00-24:00", "--zone", "UTC"}
	})
	seen := map[string]string{}
	for i, out := range outs {
		require.Zero(t, codes[i], out)
		first := strings.Split(out, "\n")[2] // the first stretch
		when := strings.Join(strings.Fields(first)[:3], " ")
		assert.Empty(t, seen[when], "job-%d has the time of %s: %s", i, seen[when], when)
		seen[when] = fmt.Sprintf("job-%d", i)
	}
	calendar := run("job", "calendar", "--bay", "bay-2")
	apart(t, calendar)
}

// apart holds the stretches of a bay's calendar against each other: none begins before the one before has ended.
func apart(t *testing.T, calendar string) {
	t.Helper()
	last, n := "", 0
	for event := range strings.SplitSeq(calendar, "BEGIN:VEVENT") {
		_, start, found := strings.Cut(event, "DTSTART:")
		_, end, _ := strings.Cut(event, "DTEND:")
		if !found {
			continue
		}
		start, end = start[:len("20270301T080000Z")], end[:len("20270301T080000Z")]
		assert.GreaterOrEqual(t, start, last, "entries are by start")
		last, n = end, n+1
	}
	assert.GreaterOrEqual(t, n, 24)
}
