package history_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func TestAWholeVisitGoesThroughEveryStage(t *testing.T) {
	bodies := wholeVisit()
	want := []history.Stage{
		history.StageBooked, history.StageInspected, history.StageInspected, history.StageTrial, history.StageTrial,
		history.StagePlanned, history.StageInWork, history.StageInWork, history.StageInWork, history.StageInWork, history.StageInWork,
		history.StageFinished, history.StageFinished, history.StageHandedOver,
	}
	require.Len(t, want, len(bodies))
	for i := range bodies {
		assert.Equal(t, want[i], record(t, bodies[:i+1]...).Stage, "after event %d, %s", i+1, bodies[i].Kind())
	}
}

func TestWhatIsNotAllowedIsToldWithAWayOut(t *testing.T) {
	visit := wholeVisit()
	begun := visit[:7]
	for name, row := range map[string]struct {
		before []history.Body
		next   history.Body
		says   string
	}{
		"a trial before the inspection": {visit[:1], tried("bonnet", "finish"), "job job is booked: the vehicle has to be inspected first"},
		"a second booking":              {visit[:1], booked(), "job job is booked: a job is booked once, by its first event"},
		"a trial on a panel that nobody saw": {
			visit[:2], tried("boot-lid", "finish"), "job job is inspected: panel boot-lid was not inspected; inspected were bonnet, roof",
		},
		"work before a plan": {
			visit[:4], worked("bonnet", "polish", history.Done), "job job is trial: work follows a plan; record which panel gets which ladder first",
		},
		"work on a panel out of the plan": {
			append(visit[:5:5], planned("bonnet", "finish")), worked("roof", "finish", history.Done),
			"job job is planned: panel roof is in no plan; record a plan that names it",
		},
		"a step that is not on the ladder": {
			visit[:6], worked("roof", "cut", history.Done), "job job is planned: cut is not on the ladder of panel roof, which is finish; record a plan that has it",
		},
		"a milder step before the stronger one": {
			visit[:6], worked("bonnet", "finish", history.UnderWay),
			"job job is planned: polish comes before finish on panel bonnet and is not done; record it as done or left out first",
		},
		"leaving out what is done": {visit[:9], worked("bonnet", "polish", history.LeftOut), "job job is in work: polish on panel bonnet is done and cannot be left out any more"},
		"inspecting a panel under work": {
			begun, inspected("bonnet"), "job job is in work: work on panel bonnet has begun; record readings on it, or correct the inspection",
		},
		"readings of before under work": {
			begun, read("bonnet", history.Before),
			"job job is in work: work on panel bonnet has begun, so readings on it are no longer from before; record them as during or after",
		},
		"readings of before after a trial": {
			visit[:5], read("bonnet", history.Before),
			"job job is trial: panel bonnet was tried already; give readings from before a trial with the trial, or inspect the panel again",
		},
		"readings of during before work": {
			visit[:6], read("roof", history.During), "job job is planned: no work on panel roof is on record yet; record the work first, or the readings as before",
		},
		"a plan that forgets a panel under work": {
			begun, planned("roof", "finish"), "job job is in work: polish on panel bonnet is under way, and the plan leaves the panel out; name it too",
		},
		"finishing with open steps": {
			begun, &history.Finished{}, "job job is in work: polish on bonnet is under way, finish on bonnet is open, finish on roof is open; record each as done or left out first",
		},
		"finishing before work":    {visit[:6], &history.Finished{}, "job job is planned: no work is on record that could be finished; to end the job without, cancel it"},
		"finishing twice":          {visit[:12], &history.Finished{}, "job job is finished: the work is finished already"},
		"handing over unfinished":  {begun, &history.HandedOver{}, "job job is in work: the work has to be finished first; to end the job without, cancel it"},
		"work after the finish":    {visit[:12], worked("roof", "finish", history.Done), "job job is finished: the work is finished; to work again, record a plan for what is still to do"},
		"a trial after the finish": {visit[:12], tried("roof", "finish"), "job job is finished: the work is finished; to inspect or try anew, record a plan for what is still to do, or book a new job"},
		"anything after handing over": {
			visit, read("bonnet", history.After), "job job is handed over: nothing more is recorded in it, except corrections; book a new job for the vehicle",
		},
		"cancelling what is handed over": {
			visit, &history.Cancelled{}, "job job is handed over: nothing more is recorded in it, except corrections; book a new job for the vehicle",
		},
		"a verdict on what is no trial": {visit[:4], judged(3, "bonnet", nil), "job job is trial: event 3 is no trial on panel bonnet that counts"},
	} {
		t.Run(name, func(t *testing.T) {
			err := jobOf(row.before...).Allows(row.next)
			var stage *history.StageError
			require.ErrorAs(t, err, &stage)
			assert.Equal(t, row.says, err.Error())
			assert.Equal(t, row.next.Kind(), stage.Kind)
		})
	}
}

func TestWhatCouldNeverBeRightIsToldAtOnce(t *testing.T) {
	job := jobOf(wholeVisit()[:6]...)
	err := job.Allows(&history.Progress{Panel: "The Roof", Step: "sand", State: "begun", SectionsDone: ptr(7), SectionsTotal: ptr(6)})
	require.Error(t, err)
	assert.Equal(t, `progress.panel_id "The Roof" is no id; an id is of small letters, digits and single hyphens, up to 60
progress.step "sand" is no step; a step is cut, polish or finish
progress.state "begun" is not allowed; a step is under way, done or left out
progress.sections_done is 7 of 6 in all; it cannot be more`, err.Error())
	for name, body := range map[string]history.Body{
		"no panels":           &history.Inspection{},
		"one panel twice":     inspected("roof", "roof"),
		"no reading":          &history.Readings{Panel: "roof", When: history.Before},
		"left out, no reason": &history.Progress{Panel: "roof", Step: "finish", State: history.LeftOut},
		"a ladder of nothing": planned("roof", ""),
		"an unknown ladder":   planned("roof", "sand-finish"),
		"no rule set":         &history.Decision{},
		"a fact of no kind":   &history.Decision{RuleSet: "h", Sheets: []history.FactSheet{{Facts: map[string]any{"a": 1}}}},
		"text with a NUL":     &history.Details{Notes: "a\x00b"},
		"text in no alphabet": &history.Details{Label: "\xff"},
	} {
		var input *history.InputError
		assert.ErrorAs(t, job.Allows(body), &input, name)
	}
}

func TestAFinishedJobIsTakenUpAgainByAPlan(t *testing.T) {
	again := slices.Concat(wholeVisit()[:12], []history.Body{planned("bonnet", "polish-finish", "roof", "polish")})
	job := record(t, again...)
	assert.Equal(t, history.StageInWork, job.Stage)
	assert.Equal(t, history.Done, job.Panel("bonnet").Steps[0].State, "the same ladder goes on where it was")
	assert.Equal(t, []history.StepWork{{Step: "polish", State: history.Open}}, job.Panel("roof").Steps, "another begins")
	record(t, append(again, worked("roof", "polish", history.Done), &history.Finished{}, &history.HandedOver{})...)
}

func TestAPanelInspectedAgainStartsAnew(t *testing.T) {
	visit := wholeVisit()[:5]
	job := record(t, append(visit, inspected("bonnet"))...)
	assert.Empty(t, job.Panel("bonnet").Trials)
	assert.Nil(t, job.Panel("bonnet").Advice)
	assert.NotNil(t, job.Panel("roof").Advice, "the others go on")
	assert.NotNil(t, job.Panel("bonnet").Taken(), "what its trials took off stays taken off")
	assert.Equal(t, []string{"bonnet", "roof"}, []string{job.Panels[0].ID, job.Panels[1].ID})
}

func TestMinutesAddUpAndCountsAreTheLatest(t *testing.T) {
	entry := func(state history.StepState, minutes *float64, done *int) history.Body {
		return &history.Progress{Panel: "roof", Step: "finish", State: state, Minutes: minutes, SectionsDone: done, SectionsTotal: ptr(6)}
	}
	job := record(t, booked(), inspected("roof"), planned("roof", "finish"),
		entry(history.UnderWay, ptr(12.5), ptr(2)), entry(history.UnderWay, nil, ptr(4)), entry(history.Done, ptr(10.0), nil))
	assert.Equal(t, []history.StepWork{{
		Step: "finish", State: history.Done, SectionsDone: ptr(4), SectionsTotal: ptr(6), Minutes: ptr(22.5),
	}}, job.Panel("roof").Steps)
}
