package page

import (
	"fmt"
	"io"
	"strings"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Recorded says what a call recorded, gives the advice or the verdict that came with it, and warns when the work leaves its course.
func Recorded(w io.Writer, answer *glossladderv1.RecordResponse, tryOnly bool, style Style) error {
	p := newPaper(style)
	verb := "Recorded in " + idOf(answer.GetJob().GetName())
	if tryOnly {
		verb = "Nothing was recorded; it would be, in " + idOf(answer.GetJob().GetName())
	}
	p.item(0, 0, in(strong, verb), say("·"), jobStage(answer.GetJob().GetStage()))
	for _, e := range answer.GetEvents() {
		p.item(titleAt, titleAt+5, in(faint, fmt.Sprint(e.GetSequence())), say(eventWords(e)))
	}
	for _, c := range answer.GetJob().GetCourses() {
		if c.GetState() == glossladderv1.WorkCourseState_WORK_COURSE_STATE_FALLING_BEHIND && readDuring(answer) {
			p.blank()
			p.course(c)
		}
	}
	if err := p.writeTo(w); err != nil {
		return err
	}
	for _, e := range answer.GetEvents() {
		var err error
		switch d := e.GetDecision(); {
		case d.GetRecommendation() != nil:
			_, err = fmt.Fprintln(w)
			if err == nil {
				err = Recommendation(w, d.GetRecommendation(), style)
			}
		case d.GetVerdict() != nil:
			_, err = fmt.Fprintln(w)
			if err == nil {
				err = Verdict(w, d.GetVerdict(), style)
			}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func readDuring(answer *glossladderv1.RecordResponse) bool {
	for _, e := range answer.GetEvents() {
		if e.GetReadings().GetTime() == glossladderv1.ReadingsTime_READINGS_TIME_DURING {
			return true
		}
	}
	return false
}

// Events lists events in order.
func Events(w io.Writer, all []*glossladderv1.JobEvent, zone *time.Location, style Style) error {
	p := newPaper(style)
	for _, e := range all {
		at := when(e.GetRecordTime(), zone)
		role := plain
		text := eventWords(e)
		if e.GetCorrectedBy() > 0 {
			role, text = faint, text+fmt.Sprintf(" [corrected by event %d]", e.GetCorrectedBy())
		}
		if e.GetRecordedBy() != "" {
			text += " · " + e.GetRecordedBy()
		}
		p.item(0, 6, in(strong, fmt.Sprintf("%4d", e.GetSequence())), in(faint, at+nbsp), in(role, text))
		if e.GetHappenTime() != nil {
			p.para(6, in(faint, "happened "+when(e.GetHappenTime(), zone)))
		}
	}
	return p.writeTo(w)
}

// eventWords is what happened in one line.
func eventWords(e *glossladderv1.JobEvent) string {
	switch what := e.GetWhat().(type) {
	case *glossladderv1.JobEvent_Booked:
		return "booked for vehicle " + idOf(what.Booked.GetVehicle()) + labelled(what.Booked.GetLabel())
	case *glossladderv1.JobEvent_Details:
		return "details changed" + labelled(what.Details.GetLabel()) + bayed(what.Details.GetBay())
	case *glossladderv1.JobEvent_Inspection:
		var ids []string
		for _, panel := range what.Inspection.GetPanels() {
			ids = append(ids, panel.GetId())
		}
		return "inspected " + listed(ids)
	case *glossladderv1.JobEvent_Readings:
		return readingsWords(what.Readings)
	case *glossladderv1.JobEvent_Trial:
		return fmt.Sprintf("trial of %s on %s", stepWord(what.Trial.GetTrial().GetStep()), what.Trial.GetPanelId())
	case *glossladderv1.JobEvent_Decision:
		return decisionWords(what.Decision)
	case *glossladderv1.JobEvent_Plan:
		var parts []string
		for _, panel := range what.Plan.GetPanels() {
			parts = append(parts, panel.GetPanelId()+" "+ladderWords(panel.GetLadder()))
		}
		return "planned: " + strings.Join(append(parts, measuredWords(what.Plan)...), "; ")
	case *glossladderv1.JobEvent_Progress:
		return progressWords(what.Progress)
	case *glossladderv1.JobEvent_Finished:
		return "work finished" + noted(what.Finished.GetNote())
	case *glossladderv1.JobEvent_HandedOver:
		return "handed over" + noted(what.HandedOver.GetNote())
	case *glossladderv1.JobEvent_Cancelled:
		return "cancelled" + noted(what.Cancelled.GetNote())
	case *glossladderv1.JobEvent_Correction:
		return correctionWords(what.Correction)
	}
	return "something that a later program recorded"
}

// measuredWords are the areas and the crew that a plan brings.
func measuredWords(plan *glossladderv1.Plan) (out []string) {
	var areas []string
	for _, area := range plan.GetMeasured().GetAreas() {
		areas = append(areas, area.GetPanelId()+nbsp+areaOnTape(area.GetAreaM2()))
	}
	switch {
	case len(areas) > 0:
		out = append(out, "measured "+listed(areas))
	case plan.GetMeasured() != nil:
		out = append(out, "no area measured any more")
	}
	if crew := crewWords(plan.GetCrew()); crew != "" {
		out = append(out, crew)
	}
	return out
}

func labelled(label string) string {
	if label == "" {
		return ""
	}
	return ", \"" + label + "\""
}

func noted(note string) string {
	if note == "" {
		return ""
	}
	return ": " + note
}

func readingsWords(r *glossladderv1.Readings) string {
	var parts []string
	n := 0
	for _, s := range r.GetFilm() {
		n += len(s.GetTotalUm()) + len(s.GetClearUm())
	}
	if n > 0 {
		parts = append(parts, fmt.Sprintf("%d of film at %s", n, plural(len(r.GetFilm()), "spot", "spots")))
	}
	n = 0
	for _, s := range r.GetGloss() {
		n += len(s.GetAt20Gu()) + len(s.GetAt60Gu()) + len(s.GetAt85Gu()) + len(s.GetHazeHu())
	}
	if n > 0 {
		parts = append(parts, fmt.Sprintf("%d of gloss and haze at %s", n, plural(len(r.GetGloss()), "spot", "spots")))
	}
	if len(r.GetLeft()) > 0 {
		parts = append(parts, "what is left: "+marksWords(r.GetLeft()))
	}
	if r.PanelC != nil {
		parts = append(parts, "panel at "+with(r.GetPanelC(), "°C"))
	}
	text := fmt.Sprintf("readings %s the work on %s", plainWord(r.GetTime()), r.GetPanelId())
	if r.GetStep() > glossladderv1.Step_STEP_NONE {
		text += ", " + stepWord(r.GetStep())
	}
	text += ": " + strings.Join(parts, ", ")
	if r.GetSource() != "" {
		text += " (" + r.GetSource() + ")"
	}
	return text
}

func decisionWords(d *glossladderv1.Decision) string {
	if v := d.GetVerdict(); v != nil {
		return fmt.Sprintf("verdict on the trial of event %d: %s", d.GetTrial(), v.GetHeadline())
	}
	var parts []string
	for _, a := range d.GetRecommendation().GetPanels() {
		parts = append(parts, a.GetPanelId()+" "+ladderWords(a.GetLadder()))
	}
	return "advised: " + strings.Join(parts, "; ")
}

func progressWords(w *glossladderv1.Progress) string {
	text := fmt.Sprintf("%s on %s %s", stepWord(w.GetStep()), w.GetPanelId(), plainWord(w.GetState()))
	if w.SectionsDone != nil {
		text += fmt.Sprintf(", %d", w.GetSectionsDone())
		if w.SectionsTotal != nil {
			text += fmt.Sprintf(" of %d", w.GetSectionsTotal())
		}
		text += " sections"
	}
	if w.Minutes != nil {
		text += ", " + with(w.GetMinutes(), "min")
	}
	if w.GetFreshPad() {
		text += ", fresh pad"
	}
	if w.GetTestSectionSpared() {
		text += ", test section spared"
	}
	return text + noted(w.GetNote())
}

func correctionWords(c *glossladderv1.Correction) string {
	text := fmt.Sprintf("event %d withdrawn", c.GetSequence())
	if c.GetInstead() != nil {
		text = fmt.Sprintf("event %d corrected", c.GetSequence())
		if r := c.GetReadings(); r != nil {
			text += " to " + readingsWords(r)
		}
	}
	return text + ": " + c.GetWhy()
}
