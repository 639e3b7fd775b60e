package workplan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// timed is an invented record in which a section of the polish took nine minutes, and nothing else was timed.
type timed struct{}

func (timed) Lesson(step, _, _ string, _ *float64, _ int) (advisor.Lesson, bool) {
	if step != "polish" {
		return advisor.Lesson{}, false
	}
	return advisor.Lesson{Section: &advisor.SectionTime{LowMin: 8, LikelyMin: 9, HighMin: 11, Panels: 23}}, true
}

func (timed) Proven(string, string, string, *float64) (panels int, lowPct float64, known bool) {
	return 0, 0, false
}

func TestMinutesOfTheShopsRecordGoBeforeTheReckonedOnes(t *testing.T) {
	in := midSize("wash-marks", 3)
	usual, err := workplan.Make(job(t, in, everyPanel(in, "polish-finish")))
	require.NoError(t, err)
	in.Lessons = timed{}
	made, err := workplan.Make(job(t, in, everyPanel(in, "polish-finish")))
	require.NoError(t, err)

	const record = plan.Source("this shop's record of 23 timed panels")
	for i, p := range made.Panels {
		for k, s := range p.Steps {
			if s.Step == "finish" {
				assert.NotContains(t, s.From, record)
				assert.Equal(t, usual.Panels[i].Steps[k].Minutes(), s.Minutes(), "nobody timed the finish")
				continue
			}
			assert.Contains(t, s.From, record)
			section := p.Panel.Steps[k].SectionPadAreas * plan.PadAreaM2(p.Panel.Steps[k].PadMm)
			assert.InDelta(t, 9*p.Panel.AreaM2.Likely/section, s.Minutes().Likely, 1e-6, "nine minutes for each section's area")
		}
	}
	assert.NotEqual(t, usual.WorkMin, made.WorkMin)
}
