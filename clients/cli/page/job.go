package page

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Job shows a job: how far it is, and each panel with what was promised and what was seen.
func Job(w io.Writer, job *glossladderv1.Job, vehicle *glossladderv1.VehicleRecord, film *glossladderv1.VehicleFilm, zone *time.Location, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, idOf(job.GetName())), say("·"), jobStage(job.GetStage()))
	if job.GetLabel() != "" {
		p.para(titleAt, say(job.GetLabel()))
	}
	p.item(titleAt, textAt, say("vehicle"), say(idOf(job.GetVehicle())+", "+vehicle.GetLabel()))
	if job.GetBookTime() != nil {
		p.item(titleAt, textAt, say("booked for"), say(when(job.GetBookTime(), zone)))
	}
	p.item(titleAt, textAt, say("last event"), say(fmt.Sprintf("%d, %s", job.GetLastSequence(), when(job.GetUpdateTime(), zone))))
	if bay := job.GetBay(); len(bay.GetBlocks()) > 0 {
		first, last := bay.GetBlocks()[0], bay.GetBlocks()[len(bay.GetBlocks())-1]
		p.item(titleAt, textAt, say("bay time"), say(bay.GetBay()+", "+when(first.GetStartTime(), zone)+" to "+when(last.GetEndTime(), zone)))
	}
	if crew := crewWords(job.GetCrew()); crew != "" {
		p.item(titleAt, textAt, say("who works"), say(crew))
	}
	if job.GetNotes() != "" {
		p.item(titleAt, textAt, say("notes"), say(job.GetNotes()))
	}
	for _, panel := range job.GetPanels() {
		p.blank()
		p.jobPanel(panel, film)
	}
	p.courses(job.GetCourses())
	if next := nextWords(job); next != "" {
		p.blank()
		p.para(0, in(faint, next))
	}
	return p.writeTo(w)
}

// jobPanel sets one panel of a job.
func (p *paper) jobPanel(panel *glossladderv1.JobPanel, film *glossladderv1.VehicleFilm) {
	p.item(0, 0, in(strong, panel.GetPanelId()), say("·"), panelStanding(panel))
	if marks := marksWords(panel.GetFound().GetDefects()); marks != "" {
		p.item(titleAt, textAt, say("marks"), say(marks))
	}
	if panel.AreaM2 != nil {
		p.item(titleAt, textAt, say("area"), say(measuredArea(panel.GetAreaM2())))
	}
	if advice := panel.GetAdvice(); advice != nil {
		p.item(titleAt, textAt, say("advised"), say(ladderWords(advice.GetLadder())+"; "+advice.GetHeadline()))
	}
	if v := panel.GetVerdict(); v != nil {
		p.item(titleAt, textAt, say(plural(len(panel.GetTrials()), "trial", "trials")), in(verdictWords(v.GetKind()).role, v.GetHeadline()))
		p.gain(v)
	}
	for i, step := range panel.GetSteps() {
		lead := ""
		if i == 0 {
			lead = "work"
		}
		p.item(titleAt, textAt, say(lead), stepProgress(step)...)
	}
	for _, o := range panel.GetOutcomes() {
		p.outcome(o)
	}
	if taken := panel.GetFilm(); taken != nil {
		p.item(titleAt, textAt, say("film taken"), say(takenWords(taken.GetTaken())+" by this job, "+measuredWord(taken.GetMeasured())+unaccounted(taken)))
	}
	for _, life := range film.GetPanels() {
		if life.GetPanelId() == panel.GetPanelId() && len(life.GetVisits()) > 1 {
			p.item(titleAt, textAt, say("over its life"), say(takenWords(life.GetLife())+" in "+plural(len(life.GetVisits()), "visit", "visits")))
		}
	}
}

// measuredArea is an area that the shop measured, as exactly as a tape tells.
func measuredArea(m2 float64) string {
	return areaOnTape(m2) + ", measured"
}

func areaOnTape(m2 float64) string {
	return strconv.FormatFloat(math.Round(m2*100)/100, 'f', -1, 64) + nbsp + "m²"
}

// crewWords is who works and how long a day is; "" when nothing is said.
func crewWords(c *glossladderv1.Crew) string {
	var words []string
	if c != nil && c.People != nil {
		words = append(words, plural(int(c.GetPeople()), "person", "people"))
	}
	if c != nil && c.DayHours != nil {
		words = append(words, with(c.GetDayHours(), "h")+" a day")
	}
	return strings.Join(words, ", ")
}

// panelStanding is the ladder of a panel and how sure it is.
func panelStanding(panel *glossladderv1.JobPanel) span {
	v := panel.GetVerdict()
	switch {
	case panel.GetLadder() == glossladderv1.Ladder_LADDER_NONE:
		return say("left alone by plan")
	case panel.GetLadder() != glossladderv1.Ladder_LADDER_UNSPECIFIED && v.GetProven() && v.GetLadder() == panel.GetLadder():
		return in(good, ladderWords(panel.GetLadder())+", proven and planned")
	case panel.GetLadder() != glossladderv1.Ladder_LADDER_UNSPECIFIED:
		return say(ladderWords(panel.GetLadder()) + ", planned")
	case v.GetProven():
		return in(good, ladderWords(v.GetLadder())+", proven")
	case panel.GetAdvice() != nil:
		return stateWords(panel.GetAdvice().GetState())
	}
	return say("inspected")
}

func marksWords(defects []*glossladderv1.Defect) string {
	words := make([]string, len(defects))
	for i, d := range defects {
		words[i] = plainWord(d.GetKind())
		if d.Severity != nil {
			words[i] += nbsp + number(d.GetSeverity())
		}
	}
	return strings.Join(words, ", ")
}

func stepProgress(s *glossladderv1.StepProgress) []span {
	state := in(plain, plainWord(s.GetState()))
	switch s.GetState() {
	case glossladderv1.StepState_STEP_STATE_DONE:
		state.role = good
	case glossladderv1.StepState_STEP_STATE_UNDER_WAY:
		state.role = wary
	case glossladderv1.StepState_STEP_STATE_LEFT_OUT:
		state.role = faint
	}
	out := []span{say(stepWord(s.GetStep())), state}
	var counts []string
	if s.SectionsDone != nil {
		text := fmt.Sprint(s.GetSectionsDone())
		if s.SectionsTotal != nil {
			text += fmt.Sprintf(" of %d", s.GetSectionsTotal())
		}
		counts = append(counts, text+" sections")
	}
	if s.Minutes != nil {
		counts = append(counts, with(s.GetMinutes(), "min"))
	}
	if len(counts) > 0 {
		out[1].text += ","
		out = append(out, say(strings.Join(counts, ", ")))
	}
	return out
}

// outcome sets one scale before and after the work, beside what was promised.
func (p *paper) outcome(o *glossladderv1.WorkOutcome) {
	lead := "haze"
	if o.GetAngle() > 0 {
		lead = fmt.Sprintf("gloss at %d°", o.GetAngle())
	}
	text := fmt.Sprintf("%s before, %s after (%s, %s)", tenths(o.GetBefore()), reading(o.GetSeen(), o.GetUnit()), signed(o.GetSeen()-o.GetBefore()), plural(int(o.GetSpots()), "spot", "spots"))
	if o.Promised == nil {
		p.item(titleAt, textAt, say(lead), say(text+"; no trial promised anything"))
		return
	}
	p.item(titleAt, textAt, say(lead), say(text+fmt.Sprintf("; promised was %s", reading(o.GetPromised(), o.GetUnit()))))
}

// nextWords is what a job waits for.
func nextWords(job *glossladderv1.Job) string {
	id := idOf(job.GetName())
	switch job.GetStage() {
	case glossladderv1.JobStage_JOB_STAGE_BOOKED:
		return "Next: glossladder job record " + id + " INSPECTION.yaml"
	case glossladderv1.JobStage_JOB_STAGE_INSPECTED:
		return "Next: glossladder job trial " + id + " TRIAL.yaml, or job plan " + id
	case glossladderv1.JobStage_JOB_STAGE_TRIAL:
		return "Next: glossladder job trial " + id + " TRIAL.yaml, or job plan " + id
	case glossladderv1.JobStage_JOB_STAGE_PLANNED:
		return "Next: glossladder job progress " + id + " STEP PANEL --begun"
	case glossladderv1.JobStage_JOB_STAGE_IN_WORK:
		return "Next: glossladder job progress " + id + " STEP PANEL --done, then job finish " + id
	case glossladderv1.JobStage_JOB_STAGE_FINISHED:
		return "Next: readings after the work with glossladder job record " + id + " FILE, then job hand-over " + id
	}
	return ""
}
