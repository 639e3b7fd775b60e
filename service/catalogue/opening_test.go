package catalogue_test

import (
	"os"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zone of the test, on machines without a database of zones

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
)

// shopWith is the invented shop with opening hours.
func shopWith(t testing.TB, opening string) []byte {
	t.Helper()
	src, err := os.ReadFile("testdata/shop.yaml")
	require.NoError(t, err)
	return append(src, "\n"+opening...)
}

func TestOpeningHours(t *testing.T) {
	c, problems := catalogue.Parse("shop.yaml", shopWith(t, `opening:
  zone: Europe/Berlin
  week:
    mon-thu: "08:00-12:00, 13:00-17:30"
    fri: 08:00-24:00
    sun: "00:00-01:15"
  closed: [2026-12-31, 2026-12-24]
  shortest_min: 45
`))
	require.Empty(t, problems)
	got, ok := c.Opening()
	require.True(t, ok)
	assert.Equal(t, "Europe/Berlin", got.Zone)
	day := []catalogue.Hours{{FromMin: 480, ToMin: 720}, {FromMin: 780, ToMin: 1050}}
	assert.Equal(t, [7][]catalogue.Hours{
		time.Sunday: {{FromMin: 0, ToMin: 75}}, time.Monday: day, time.Tuesday: day, time.Wednesday: day, time.Thursday: day,
		time.Friday: {{FromMin: 480, ToMin: 1440}},
	}, got.Week)
	assert.Equal(t, 45.0, got.ShortestMin)
	assert.Equal(t, []time.Time{time.Date(2026, 12, 24, 0, 0, 0, 0, time.UTC), time.Date(2026, 12, 31, 0, 0, 0, 0, time.UTC)}, got.Closed)

	c, problems = catalogue.Parse("shop.yaml", shopWith(t, ""))
	require.Empty(t, problems)
	_, ok = c.Opening()
	assert.False(t, ok, "a catalogue need not say")
}

func TestOpeningHoursRefuse(t *testing.T) {
	for _, row := range []struct{ name, opening, want string }{
		{"no zone", "opening: {week: {mon: 08:00-12:00}}", "opening has no zone"},
		{"a zone misspelt", "opening: {zone: Europe/Berln, week: {mon: 08:00-12:00}}", `zone is "Europe/Berln"; write a time zone of the IANA database`},
		{"the zone of whatever machine", "opening: {zone: Local, week: {mon: 08:00-12:00}}", `zone is "Local"`},
		{"no week", "opening: {zone: Europe/Berlin}", "opening has no week"},
		{"a week without days", "opening: {zone: Europe/Berlin, week: {}}", "week is a map; write days with their hours"},
		{"a week that is a list", "opening: {zone: Europe/Berlin, week: [mon]}", "week is a list; write days with their hours"},
		{"no day", "opening: {zone: Europe/Berlin, week: {monday: 08:00-12:00}}", "monday is no day; days are mon, tue"},
		{"a stretch backwards", "opening: {zone: Europe/Berlin, week: {fri-mon: 08:00-12:00}}", "fri-mon is no day"},
		{"a day twice", "opening: {zone: Europe/Berlin, week: {mon-fri: 08:00-12:00, wed: 08:00-12:00}}", "wed has hours already; they are under mon-fri"},
		{"hours that end before they begin", "opening: {zone: Europe/Berlin, week: {mon: 22:00-06:00}}", `"22:00-06:00" does not end after it begins`},
		{"stretches that overlap", `opening: {zone: Europe/Berlin, week: {mon: "08:00-12:00, 11:00-13:00"}}`, `"11:00-13:00" begins before the stretch before it ends`},
		{"no hours", "opening: {zone: Europe/Berlin, week: {mon: early}}", `"early" is no stretch of hours`},
		{"an hour without its zero", "opening: {zone: Europe/Berlin, week: {mon: 8:00-12:00}}", `"8:00-12:00" is no stretch of hours`},
		{"25 o'clock", "opening: {zone: Europe/Berlin, week: {mon: 08:00-25:00}}", `is no stretch of hours`},
		{"hours in a list", "opening: {zone: Europe/Berlin, week: {mon: [08:00-12:00]}}", "the hours of a day are a list"},
		{"no day of the calendar", "opening: {zone: Europe/Berlin, week: {mon: 08:00-12:00}, closed: [2026-02-29]}", `"2026-02-29" is no day of the calendar`},
		{"closed days that are no list", "opening: {zone: Europe/Berlin, week: {mon: 08:00-12:00}, closed: 2026-12-24}", "closed is a single value"},
		{"a gap longer than a day", "opening: {zone: Europe/Berlin, week: {mon: 08:00-12:00}, shortest_min: 1441}", "shortest_min is 1441 min"},
		{"a key misspelt", "opening: {zone: Europe/Berlin, week: {mon: 08:00-12:00}, close: [2026-12-24]}", "close is not a key of opening; did you mean closed?"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := catalogue.Knowing(time.LoadLocation)("shop.yaml", shopWith(t, row.opening))
			require.ErrorContains(t, err, row.want)
			assert.True(t, strings.HasPrefix(err.Error(), "shop.yaml:"), "it has a place")
			assert.Equal(t, 0, strings.Count(err.Error(), "\n"), "it is told once")
		})
	}
}
