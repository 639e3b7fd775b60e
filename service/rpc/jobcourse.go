package rpc

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/course"
)

// reached gives the spots of a trial as they read afterwards.
func reached(made history.TrialMade) []history.GlossSpot {
	trial, err := documentInto(made.Document, &glossladderv1.TrialRecord{})
	if err != nil {
		return nil // whoever asks for the trial itself is told; a promise that cannot be read is none
	}
	return glossKept(trial.GetTrial().GetAfter())
}

// coursesOut says whether the work goes as the trials promised, and what came of it.
func coursesOut(job *history.Job, into *glossladderv1.Job) {
	for _, c := range course.Of(job, reached) {
		into.Courses = append(into.Courses, courseOut(&c))
	}
	for i, panel := range job.Panels {
		for _, o := range course.Outcomes(job, panel, reached) {
			into.Panels[i].Outcomes = append(into.Panels[i].Outcomes, &glossladderv1.WorkOutcome{
				Angle: int32(o.Scale.Angle), Unit: o.Scale.Unit(), Before: o.Before, Seen: o.Seen, Spots: int32(o.Spots), Promised: o.Promised,
			})
		}
	}
}

func courseOut(c *course.Course) *glossladderv1.WorkCourse {
	out := &glossladderv1.WorkCourse{
		PanelId: c.Panel, Trial: c.Trial, Step: word[glossladderv1.Step](c.Step), Angle: int32(c.Scale.Angle), Unit: c.Scale.Unit(),
		Promised: c.Promised, State: courseState(c.State()), Says: c.Says(), SectionsOnPad: narrow(c.SectionsOnPad),
	}
	if c.Chart.Sigma > 0 {
		out.Sigma, out.Lower, out.Upper = ptr(c.Chart.Sigma), ptr(c.Chart.Lower()), ptr(c.Chart.Upper())
	}
	for _, p := range c.Points {
		out.Points = append(out.Points, &glossladderv1.WorkPoint{PanelId: p.Panel, Spot: p.Spot, Sequence: p.Sequence, Value: p.Value})
	}
	for _, s := range c.Chart.Signals {
		out.Signals = append(out.Signals, &glossladderv1.WorkSignal{Point: int32(s.At), Worse: c.Scale.Worse(s.Low), Says: s.Kind.String()})
	}
	return out
}

func courseState(s course.State) glossladderv1.WorkCourseState {
	switch s {
	case course.TooFew:
		return glossladderv1.WorkCourseState_WORK_COURSE_STATE_TOO_FEW
	case course.AsPromised:
		return glossladderv1.WorkCourseState_WORK_COURSE_STATE_AS_PROMISED
	case course.FallingBehind:
		return glossladderv1.WorkCourseState_WORK_COURSE_STATE_FALLING_BEHIND
	case course.Better:
		return glossladderv1.WorkCourseState_WORK_COURSE_STATE_BETTER
	}
	return glossladderv1.WorkCourseState_WORK_COURSE_STATE_UNSPECIFIED
}
