package hindsight

import (
	"slices"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/history/trace"
)

// past is what happened in one job. What is asked about every panel is found quickly; how the trials went is told only where an
// answer changed, or where something was corrected.
type past struct {
	reader    *trace.Reader
	job       []history.Traced
	corrected bool
	found     []found
	courses   []lessons.Course
	told      bool
}

// found is a panel in an inspection.
type found struct {
	panel    string
	sequence int64
	class    lessons.Class
}

// begin begins with a job.
func (p *past) begin(job []history.Traced) error {
	p.job, p.found, p.told, p.corrected = job, p.found[:0], false, false
	if err := ownTraces(job); err != nil {
		return err
	}
	for i := range job {
		switch trace.KindOf(job[i].Trace) {
		case history.KindCorrection:
			p.corrected = true
		case history.KindInspection:
			err := p.reader.Inspection(job[i].Trace, func(f *history.PanelFound) {
				p.found = append(p.found, found{f.ID, job[i].Sequence, lessons.ClassOf(f)})
			})
			if err != nil {
				return unreadable(&job[i], err)
			}
		case "":
			_, err := p.reader.Body(job[i].Trace)
			return unreadable(&job[i], err)
		}
	}
	return nil
}

// class is that of a panel at a decision; the zero class when it was not inspected before.
func (p *past) class(panel string, decision int64) (lessons.Class, error) {
	if p.corrected {
		course, err := p.course(panel, decision)
		if course == nil || err != nil {
			return lessons.Class{}, err
		}
		return course.Class, nil
	}
	for _, f := range slices.Backward(p.found) {
		if f.sequence < decision && f.panel == panel {
			return f.class, nil
		}
	}
	return lessons.Class{}, nil
}

// course is the one that a decision belongs to; nil when the panel was not inspected before.
func (p *past) course(panel string, decision int64) (*lessons.Course, error) {
	if !p.told {
		events, err := eventsOf(p.job, p.reader, nil)
		if err != nil {
			return nil, err
		}
		p.courses, p.told = lessons.Courses(events), true
	}
	return courseOf(p.courses, panel, decision), nil
}

// courseOf is the course that a decision belongs to; nil when the panel was not inspected before.
func courseOf(courses []lessons.Course, panel string, decision int64) *lessons.Course {
	var out *lessons.Course
	for i := range courses {
		if c := &courses[i]; c.Panel == panel && c.Inspection < decision && (out == nil || c.Inspection > out.Inspection) {
			out = c
		}
	}
	return out
}
