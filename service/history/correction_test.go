package history_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func corrected(sequence int64, instead history.Body) history.Body {
	return &history.Correction{Sequence: sequence, Why: "typed wrongly", Instead: instead}
}

func TestACorrectionStandsInThePlaceOfWhatWasWrong(t *testing.T) {
	bodies := append(wholeVisit(), corrected(4, tried("bonnet", "polish")))
	job := record(t, bodies...)
	assert.Equal(t, "polish", job.Panel("bonnet").Trials[0].Step)
	assert.Equal(t, history.StageHandedOver, job.Stage)
	assert.Len(t, job.Events(), len(bodies), "what was recorded first stays")
	assert.Equal(t, tried("bonnet", "finish"), job.Events()[3].Body)
	assert.Nil(t, job.Panel("bonnet").Verdict, "the verdict was on another trial")

	again := record(t, append(bodies, corrected(4, tried("roof", "finish")))...)
	assert.Empty(t, again.Panel("bonnet").Trials, "the latest correction counts")
	assert.Len(t, again.Panel("roof").Trials, 1)
}

func TestACorrectionKeepsItsOwnDocument(t *testing.T) {
	all := events(append(wholeVisit()[:4], corrected(4, tried("bonnet", "polish")))...)
	all[3].Document, all[4].Document = json.RawMessage(`"wrong"`), json.RawMessage(`"right"`)
	effective := history.Effective(all)
	require.Len(t, effective, 4)
	assert.Equal(t, `"right"`, string(effective[3].Document))
	assert.Equal(t, int64(5), effective[3].CorrectedBy)
	assert.Equal(t, at(3), effective[3].RecordedAt, "when it happened does not change")
	assert.Equal(t, `"wrong"`, string(all[3].Document), "the events given are left as they are")
}

func TestAdviceOnAnInspectionThatWasWrongNoLongerCounts(t *testing.T) {
	bodies := []history.Body{booked(), inspected("bonnet"), advised("bonnet"), corrected(2, inspected("bonnet"))}
	assert.Nil(t, record(t, bodies...).Panel("bonnet").Advice)
	assert.NotNil(t, record(t, append(bodies, advised("bonnet"))...).Panel("bonnet").Advice)
}

func TestWithdrawing(t *testing.T) {
	visit := wholeVisit()
	job := record(t, append(visit, corrected(14, nil))...)
	assert.Equal(t, history.StageFinished, job.Stage, "handed over by mistake")
	job = record(t, append(visit, corrected(13, nil))...)
	assert.Empty(t, job.Panel("bonnet").After)
}

func TestCorrectionsThatMakeNoSenseAreRefused(t *testing.T) {
	visit := wholeVisit()
	twice := slices.Concat(visit, []history.Body{corrected(4, tried("bonnet", "polish"))})
	for name, row := range map[string]struct {
		before []history.Body
		next   *history.Correction
		says   string
	}{
		"no such event":      {visit, &history.Correction{Sequence: 99, Why: "w"}, "there is no event 99 of job job on record"},
		"no reason":          {visit, &history.Correction{Sequence: 4}, "correction.why is missing; say what was wrong"},
		"a correction":       {twice, &history.Correction{Sequence: 15, Why: "w"}, "correction.sequence is 15, which is a correction itself; correct the event that it corrected again"},
		"the booking":        {visit, &history.Correction{Sequence: 1, Why: "w"}, "correction.sequence is 1, and booked cannot be withdrawn; record what holds now"},
		"what was answered":  {visit, &history.Correction{Sequence: 3, Why: "w"}, "correction.sequence is 3, and decision cannot be withdrawn; record what holds now"},
		"another kind":       {visit, &history.Correction{Sequence: 4, Why: "w", Instead: read("bonnet", history.After)}, "correction.instead is of kind readings, and event 4 is of kind trial; inspections, readings, trials and progress are replaced by their like, all else is said anew"},
		"faulty in itself":   {visit, &history.Correction{Sequence: 4, Why: "w", Instead: tried("bonnet", "sand")}, `trial.step "sand" is no step; a step is cut, polish or finish`},
		"a panel not seen":   {visit, &history.Correction{Sequence: 4, Why: "w", Instead: tried("sill", "finish")}, "correction.instead does not fit where it would stand: job job is inspected: panel sill was not inspected; inspected were bonnet, roof"},
		"what work rests on": {visit, &history.Correction{Sequence: 9, Why: "w"}, "event 10 rests on what would be corrected: job job is in work: polish comes before finish on panel bonnet and is not done; record it as done or left out first; correct or withdraw event 10 first"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.EqualError(t, jobOf(row.before...).Allows(row.next), row.says)
		})
	}
}

func TestAdviceOnAnInspectionThatWasWithdrawnDoesNotCountForTheOneBefore(t *testing.T) {
	bodies := []history.Body{booked(), inspected("bonnet"), advised("bonnet"), inspected("bonnet", "roof"), advised("bonnet", "roof"), corrected(4, nil)}
	job := record(t, bodies...)
	require.Len(t, job.Panels, 1, "nobody has looked at the roof")
	assert.Equal(t, int64(2), job.Panel("bonnet").FoundAt)
	assert.Equal(t, int64(3), job.Panel("bonnet").Advice.Sequence, "that of its own inspection counts again")
	job = record(t, append(bodies, advised("bonnet"))...)
	assert.Equal(t, int64(7), job.Panel("bonnet").Advice.Sequence)
}

func TestReadingsFromBeforeTheWorkEndTheAdviceThatRestedOnOthers(t *testing.T) {
	bodies := []history.Body{booked(), inspected("bonnet", "roof"), advised("bonnet", "roof"), read("bonnet", history.Before)}
	job := record(t, bodies...)
	assert.Nil(t, job.Panel("bonnet").Advice)
	assert.NotNil(t, job.Panel("roof").Advice)
	assert.NotNil(t, record(t, append(bodies, advised("bonnet"))...).Panel("bonnet").Advice)
}
