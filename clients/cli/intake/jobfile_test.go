package intake_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func TestAFileOfAJobTellsWhatItHolds(t *testing.T) {
	readings := &glossladderv1.Readings{PanelId: "bonnet", Time: glossladderv1.ReadingsTime_READINGS_TIME_DURING, Gloss: []*glossladderv1.GlossSpot{{Spot: "a", At60Gu: []float64{88.5}}}}
	for name, row := range map[string]struct {
		text       string
		inspection bool
		readings   int
	}{
		"an inspection":           {"panels: [{id: bonnet}]", true, 0},
		"a request around one":    {"inspection: {panels: [{id: bonnet}]}", true, 0},
		"the readings of a panel": {"panel_id: bonnet\ntime: during\ngloss: [{spot: a, at60_gu: [88.5]}]", false, 1},
		"several":                 {"readings:\n  - {panel_id: bonnet, time: during, gloss: [{spot: a, at60_gu: [88.5]}]}\n  - {panel_id: bonnet, time: during, gloss: [{spot: a, at60_gu: [88.5]}]}", false, 2},
		"several, in JSON":        {`{"readings":[{"panelId":"bonnet","time":"READINGS_TIME_DURING","gloss":[{"spot":"a","at60Gu":[88.5]}]}]}`, false, 1},
	} {
		t.Run(name, func(t *testing.T) {
			found, _, problems := intake.ForJob(source(row.text), intake.Bare{})
			require.Empty(t, problems)
			assert.Equal(t, row.inspection, found.Inspection != nil)
			require.Len(t, found.Readings, row.readings)
			for _, r := range found.Readings {
				assert.True(t, proto.Equal(readings, r), "%v", r)
			}
		})
	}
	_, places, problems := intake.ForJob(source("readings:\n  - {panel_id: bonnet, time: later}\nnote: x"), intake.Bare{})
	require.Len(t, problems, 2)
	assert.Contains(t, problems.Error(), "time: \"later\" is not one of its words")
	assert.Contains(t, problems.Error(), "the file has no field \"note\"; it holds readings and nothing else")
	at, exact, ok := places.Of("readings[0].panel_id")
	require.True(t, ok && exact)
	assert.Equal(t, 2, at.Line)
}

func TestATrialOfAJobStandsAlone(t *testing.T) {
	record, places, problems := intake.TrialForJob(source("panel_id: bonnet\ntrial: {step: polish, minutes: 6}"), intake.Bare{})
	require.Empty(t, problems)
	assert.Equal(t, "bonnet", record.GetPanelId())
	assert.InDelta(t, 6, record.GetTrial().GetMinutes(), 0)
	_, exact, ok := places.Of("trial.trial.minutes")
	assert.True(t, ok && exact, "places are named as in the request")
	_, _, problems = intake.TrialForJob(source("panel_id: bonnet\ntrials: [{step: polish}]"), intake.Bare{})
	require.Len(t, problems, 1)
	assert.Contains(t, problems.Error(), "a job records one trial at a time")
}

func TestWhatHoldsInstead(t *testing.T) {
	instead, _, problems := intake.ForCorrection(source("panel_id: bonnet\nstep: polish\nstate: done\nsections_done: 8\nfresh_pad: true"), intake.Bare{})
	require.Empty(t, problems)
	assert.Equal(t, int32(8), instead.Progress.GetSectionsDone())
	instead, _, problems = intake.ForCorrection(source("panel_id: bonnet\ntrial: {step: polish}"), intake.Bare{})
	require.Empty(t, problems)
	assert.NotNil(t, instead.Trial)
	instead, _, problems = intake.ForCorrection(source("panels: [{id: bonnet}]"), intake.Bare{})
	require.Empty(t, problems)
	assert.NotNil(t, instead.Inspection)
	instead, _, problems = intake.ForCorrection(source("panel_id: bonnet\ntime: after\npanel_c: 88 °F"), intake.Bare{})
	require.Empty(t, problems)
	assert.InDelta(t, 31.1, instead.Readings.GetPanelC(), 0.02)
	_, _, problems = intake.ForCorrection(source("readings: [{panel_id: a, time: after}, {panel_id: b, time: after}]"), intake.Bare{})
	assert.Contains(t, problems.Error(), "one event holds the readings of one panel")
	_, _, problems = intake.ForCorrection(source("panel_id: bonnet\nstate: done\nsections_done: 8.5"), intake.Bare{})
	assert.Contains(t, problems.Error(), "sections_done: \"8.5\" is not a whole number")
}

func TestTimesAsPeopleWriteThem(t *testing.T) {
	for text, want := range map[string]time.Time{
		"2026-05-04":           time.Date(2026, 5, 4, 0, 0, 0, 0, time.Local),
		"2026-05-04 08:55":     time.Date(2026, 5, 4, 8, 55, 0, 0, time.Local),
		"2026-05-04T08:55:10":  time.Date(2026, 5, 4, 8, 55, 10, 0, time.Local),
		"2026-05-04T08:55:00Z": time.Date(2026, 5, 4, 8, 55, 0, 0, time.UTC),
	} {
		at, err := intake.Time(text)
		require.NoError(t, err, text)
		assert.True(t, want.Equal(at), "%s is %s", text, at)
	}
	_, err := intake.Time("4.5.2026")
	require.EqualError(t, err, `"4.5.2026" is no time; write 2026-11-25, 2026-11-25 14:30 or 2026-11-25T14:30:00Z`)
}
