package advisor_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

// record is a shop's record as a test wants it (invented).
type record struct {
	lesson advisor.Lesson
	proven map[string]float64 // low end in %, by step, over 20 panels
	asked  []string
}

func (r *record) Lesson(step, softness, kind string, severity *float64, angle int) (advisor.Lesson, bool) {
	if severity != nil {
		kind += " graded"
	}
	r.asked = append(r.asked, step+" "+softness+" "+kind)
	_ = angle
	return r.lesson, r.lesson.Panels > 0
}

func (r *record) Proven(step, _, _ string, _ *float64) (int, float64, bool) {
	low, ok := r.proven[step]
	return 20, low, ok
}

// mediumMarks are moderate marks in medium paint, which start with a polish.
func mediumMarks(lessons advisor.Lessons) advisor.Inspection {
	in := inspection(panel(func(p *advisor.Panel) { p.Paint.Softness = "medium" }))
	in.Lessons = lessons
	return in
}

func TestAProvenFinishStartsMilder(t *testing.T) {
	a := shop(t)
	without := recommend(t, a, mediumMarks(nil))
	require.Equal(t, "polish", without.Start)
	for _, c := range []struct {
		name  string
		low   float64
		start string
		rule  string
	}{
		{"proven", 75, "finish", "own-record-trusts-a-finish"},
		{"not quite", 69.9, "polish", "moderate-wash-marks"},
	} {
		got := recommend(t, a, mediumMarks(&record{proven: map[string]float64{"finish": c.low}}))
		assert.Equal(t, c.start, got.Start, c.name)
		assert.Equal(t, c.rule, got.Defects[0].Reason.Rule, c.name)
		assert.Equal(t, without.Limit, got.Limit, "a record moves no limit")
		assert.Equal(t, without.Readiness, got.Readiness)
	}
}

func TestAnEmptyRecordChangesNothing(t *testing.T) {
	a := shop(t)
	assert.Equal(t, recommend(t, a, mediumMarks(nil)), recommend(t, a, mediumMarks(&record{})))
}

func TestAReasonDoesNotTellThatNothingIsOnRecord(t *testing.T) {
	reason := recommend(t, shop(t), mediumMarks(nil)).Defects[0].Reason
	assert.Equal(t, "moderate-wash-marks", reason.Rule)
	assert.NotContains(t, reason.Sentence, "record")
	known := recommend(t, shop(t), mediumMarks(&record{proven: map[string]float64{"finish": 40}})).Defects[0].Reason
	assert.Contains(t, known.Sentence, "chance of a finish, low end is 40 %")
}

func TestTheFirstStepIsJudgedByTheRecord(t *testing.T) {
	a := shop(t)
	rulesOf := func(lesson advisor.Lesson) (ids []string, asked []string) {
		r := &record{lesson: lesson}
		for _, c := range recommend(t, a, mediumMarks(r)).Cautions {
			ids = append(ids, c.Reason.Rule)
		}
		return ids, r.asked
	}
	ids, asked := rulesOf(advisor.Lesson{Panels: 20, SuccessPct: 12, SuccessLowPct: 4, Removals: 20, TakesLowUm: 1.9})
	assert.Contains(t, ids, "step-seldom-accepted-here")
	assert.Contains(t, ids, "step-takes-more-than-counted", "a polish is counted with 1.5 µm at most")
	assert.Contains(t, asked, "polish medium wash-marks graded")
	ids, _ = rulesOf(advisor.Lesson{Panels: 20, SuccessPct: 80, SuccessLowPct: 70, Removals: 20, TakesLowUm: 0.3})
	assert.NotContains(t, ids, "step-seldom-accepted-here")
	assert.NotContains(t, ids, "step-takes-more-than-counted")
}

func TestWhatIsUsualComesFromTheRules(t *testing.T) {
	a := shop(t)
	said, err := a.Usual("finish", "soft", "wash-marks", ptr(2.5))
	require.NoError(t, err)
	assert.Equal(t, "finish-moderate-marks-soft", said.Reason.Rule)
	assert.Equal(t, 65.0, said.SuccessPct)
	assert.Equal(t, 5.5, said.GainGU.Mean)
	assert.Equal(t, 2.5, said.GainGU.Single)
	assert.Equal(t, 1.5, said.Minutes.Single)
	assert.Equal(t, 0.3, float64(said.Removal.LikelyUm))
	unknown, err := a.Usual("polish", "", "", nil)
	require.NoError(t, err)
	assert.Equal(t, "polish-not-graded", unknown.Reason.Rule)
}

func BenchmarkRecommendWithLessons(b *testing.B) {
	a := shop(b)
	in := inspection()
	in.Lessons = &steady{}
	for range 11 {
		in.Panels = append(in.Panels, in.Panels[0])
	}
	b.ReportAllocs()
	for b.Loop() {
		_, err := a.Recommend(in)
		require.NoError(b, err)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(in.Panels)), "µs/panel")
}

// steady answers the same to everything.
type steady struct{}

func (*steady) Lesson(string, string, string, *float64, int) (advisor.Lesson, bool) {
	return advisor.Lesson{Panels: 20, SuccessPct: 80, SuccessLowPct: 70, Removals: 20, TakesLowUm: 0.3}, true
}

func (*steady) Proven(string, string, string, *float64) (int, float64, bool) { return 20, 60, true }
