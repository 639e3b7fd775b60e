package lessons_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
)

func TestHowAStepCameOut(t *testing.T) {
	for _, c := range []struct {
		name string
		tell func(*job)
		want map[string]lessons.Ending // by step; a step that is missing has no outcome
	}{
		{"accepted at once", func(j *job) { j.try("finish", "accept") }, map[string]lessons.Ending{"finish": lessons.Accepted}},
		{"refined: it stays on the ladder", func(j *job) { j.try("cut", "refine") }, map[string]lessons.Ending{"cut": lessons.Accepted}},
		{
			"too mild, the next one does it", func(j *job) { j.try("finish", "step-up"); j.try("polish", "accept") },
			map[string]lessons.Ending{"finish": lessons.FellShort, "polish": lessons.Accepted},
		},
		{
			"accepted after an adjustment", func(j *job) { j.try("finish", "adjust"); j.try("finish", "accept") },
			map[string]lessons.Ending{"finish": lessons.Accepted},
		},
		{"stopped", func(j *job) { j.try("polish", "stop") }, map[string]lessons.Ending{"polish": lessons.FellShort}},
		{"broken off", func(j *job) { j.try("polish", "adjust") }, map[string]lessons.Ending{"polish": lessons.Untold}},
		{"given up for a milder one", func(j *job) { j.try("polish", "step-down") }, map[string]lessons.Ending{"polish": lessons.Untold}},
		{
			"a finish after a polish tells nothing of a finish alone", func(j *job) { j.try("polish", "refine"); j.try("finish", "accept") },
			map[string]lessons.Ending{"polish": lessons.Accepted, "finish": lessons.Untold},
		},
		{
			"on a fresh section it does", func(j *job) { j.try("polish", "step-down"); j.try("finish", "accept", fresh) },
			map[string]lessons.Ending{"polish": lessons.Untold, "finish": lessons.Accepted},
		},
		{"no verdict", func(j *job) { j.add(&history.Trial{Panel: "bonnet", Step: "cut"}) }, map[string]lessons.Ending{"cut": lessons.Untold}},
		{
			"a verdict from before the trial was corrected does not count", func(j *job) {
				trial, _ := j.try("finish", "accept")
				j.add(&history.Correction{Sequence: trial, Why: "typed the wrong step", Instead: &history.Trial{Panel: "bonnet", Step: "polish"}})
			},
			map[string]lessons.Ending{"polish": lessons.Untold},
		},
		{
			"one from after it does", func(j *job) {
				trial, _ := j.try("finish", "accept")
				j.add(&history.Correction{Sequence: trial, Why: "typed the wrong step", Instead: &history.Trial{Panel: "bonnet", Step: "polish"}})
				j.judge(trial, history.PanelDecided{Panel: "bonnet", Verdict: "step-up"})
			},
			map[string]lessons.Ending{"polish": lessons.FellShort},
		},
		{
			"a trial that was withdrawn is no trial", func(j *job) {
				trial, _ := j.try("finish", "accept")
				j.add(&history.Correction{Sequence: trial, Why: "another vehicle's"})
			},
			map[string]lessons.Ending{},
		},
		{
			"a verdict from before the inspection was corrected does not count", func(j *job) {
				j.try("finish", "accept")
				j.add(&history.Correction{Sequence: 2, Why: "graded too low", Instead: &history.Inspection{
					Panels: []history.PanelFound{{ID: "bonnet", Softness: "soft", Defects: []history.Defect{{Kind: "wash-marks", Severity: ptr(4.0)}}}},
				}})
			},
			map[string]lessons.Ending{"finish": lessons.Untold},
		},
		{"a panel that nobody inspected", func(j *job) { j.add(&history.Trial{Panel: "roof", Step: "cut"}) }, map[string]lessons.Ending{}},
	} {
		j := newJob("a")
		j.marks("soft", 2)
		c.tell(j)
		got := map[string]lessons.Ending{}
		for _, o := range lessons.Gather(j.events) {
			got[o.Step] = o.Ending
		}
		assert.Equal(t, c.want, got, c.name)
	}
}

func TestWhatIsMeasuredAndTimed(t *testing.T) {
	j := newJob("a")
	j.inspect("soft", "dark", history.Defect{Kind: "chips", Severity: ptr(5.0)}, history.Defect{Kind: "haze"},
		history.Defect{Kind: "wash-marks", Severity: ptr(2.5)}, history.Defect{Kind: "holograms", Severity: ptr(1.0)})
	j.try("polish", "adjust", gained(3), took(1.2, true), lasted(6))
	j.try("polish", "refine", gained(4), took(0.9, false), lasted(5))
	j.try("finish", "accept", gained(7), took(0.3, true), lasted(4))
	j.add(&history.Plan{Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "polish-finish"}}})
	j.add(&history.Progress{Panel: "bonnet", Step: "polish", State: history.UnderWay, Minutes: ptr(10.0), SectionsDone: ptr(3)})
	j.add(&history.Progress{Panel: "bonnet", Step: "polish", State: history.Done, Minutes: ptr(14.0), SectionsTotal: ptr(6)})
	j.add(&history.Progress{Panel: "bonnet", Step: "finish", State: history.Done, Minutes: ptr(14.0)})

	out := lessons.Gather(j.events)
	require.Len(t, out, 2)
	class := lessons.Class{Step: "finish", Softness: "soft", Shade: "dark", Kind: "wash-marks", Band: lessons.Moderate}
	finish := out[0]
	assert.Equal(t, class, finish.Class, "the worst mark that polishing can mend counts")
	assert.Nil(t, finish.GainGU, "a polish had worked the section before")
	assert.Equal(t, []float64{0.3}, finish.RemovalUm, "what a step takes it takes on worked paint too")
	assert.Equal(t, []float64{4}, finish.TrialMinutes)
	assert.Nil(t, finish.WorkMinutes, "sections were not counted")
	polish := out[1]
	assert.Equal(t, 2, polish.Trials)
	assert.Equal(t, 4.0, *polish.GainGU, "the last trial tells")
	assert.Equal(t, 20, polish.Angle)
	assert.Equal(t, []float64{1.2}, polish.RemovalUm, "what was only expected is no record")
	assert.Equal(t, []float64{6, 5}, polish.TrialMinutes)
	assert.Equal(t, 4.0, *polish.WorkMinutes, "24 minutes over 6 sections")
}

func TestASecondInspectionBeginsAnew(t *testing.T) {
	j := newJob("a")
	j.marks("soft", 2)
	j.try("finish", "step-up")
	j.marks("hard", 3)
	j.try("finish", "accept")
	out := lessons.Gather(j.events)
	require.Len(t, out, 2)
	assert.Equal(t, lessons.FellShort, out[0].Ending)
	assert.Equal(t, "soft", out[0].Softness)
	assert.Equal(t, lessons.Accepted, out[1].Ending)
	assert.Equal(t, lessons.Clear, out[1].Band)
}

func TestBandsCoverEveryHalfGrade(t *testing.T) {
	want := []string{"up to 0.5", "up to 0.5", "1 to 1.5", "1 to 1.5", "2 to 2.5", "2 to 2.5", "3 to 3.5", "3 to 3.5", "4 to 5", "4 to 5", "4 to 5"}
	for i, words := range want {
		severity := float64(i) / 2
		band := lessons.BandOf(&severity)
		assert.Equal(t, words, band.String(), "severity %v", severity)
		worst, graded := band.Worst()
		assert.True(t, graded)
		assert.GreaterOrEqual(t, worst, severity)
		assert.Equal(t, band, lessons.BandOf(&worst))
	}
	assert.Equal(t, "not graded", lessons.BandOf(nil).String())
	_, graded := lessons.NotGraded.Worst()
	assert.False(t, graded)
	assert.Len(t, lessons.Bands(), 5)
}
