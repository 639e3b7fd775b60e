package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// lessonAt is where what is told of a step begins.
const lessonAt = 10

// Lessons tells what usually works on a kind of panel, step by step. Asked is that kind in words, "" for any.
func Lessons(w io.Writer, said *glossladderv1.GetLessonsResponse, asked string, style Style) error {
	p := newPaper(style)
	if asked == "" {
		asked = "any paint, any marks"
	}
	p.heading(0, "What usually works here: "+asked)
	p.para(0, say(onRecord(said)))
	if said.GetJobs() == 0 {
		p.para(0, in(faint, "Until there is something on record, this is what expect.yaml states as usual."))
	}
	for _, lesson := range said.GetLessons() {
		p.blank()
		p.lesson(stepWord(lesson.GetStep()), lesson)
	}
	p.blank()
	if best := usually(said); best != "" {
		p.para(0, say("The mildest step that is accepted more often than not: "), in(strong, best+"."))
	}
	p.confidence(said)
	return p.writeTo(w)
}

// EveryLesson tells every class on record.
func EveryLesson(w io.Writer, said *glossladderv1.GetLessonsResponse, style Style) error {
	p := newPaper(style)
	p.heading(0, "Every kind of panel on record")
	p.para(0, say(onRecord(said)))
	p.blank()
	var rows [][]span
	for _, l := range said.GetLessons() {
		if l.GetSuccessPct().GetRecords() == 0 {
			continue
		}
		accepted := l.GetSuccessPct()
		rows = append(rows, []span{
			say(stepWord(l.GetStep())), say(orNotKnown(plainWord(l.GetSoftness()))), say(l.GetSeverities()), say(fmt.Sprint(accepted.GetRecords())),
			say(fmt.Sprintf("%.0f (%.0f to %.0f)", accepted.GetMean(), accepted.GetLow(), accepted.GetHigh())), say(orNotKnown(plainWord(l.GetDefect()))),
		})
	}
	if len(rows) == 0 {
		p.para(0, in(faint, "No trial has come to an end yet."))
		return p.writeTo(w)
	}
	p.ledger([]string{"step", "softness", "severity", "panels", "accepted, %", "marks"}, rows)
	p.blank()
	p.confidence(said)
	return p.writeTo(w)
}

func orNotKnown(word string) string {
	if word == "" {
		return "not known"
	}
	return word
}

// onRecord says what the answer rests on.
func onRecord(said *glossladderv1.GetLessonsResponse) string {
	if said.GetJobs() == 0 {
		return "No job on record has a trial or timed work."
	}
	out := "On record: " + plural(int(said.GetJobs()), "job", "jobs") + "."
	var parts []string
	total := 0
	for _, proven := range said.GetProven() {
		if n := int(proven.GetPanels()); n > 0 {
			parts = append(parts, fmt.Sprintf("%d with a %s", n, stepWord(proven.GetStep())))
			total += n
		}
	}
	if total == 0 {
		return out + " No panel of this kind has proved a ladder yet."
	}
	return out + " " + plural(total, "panel of this kind has", "panels of this kind have") + " proved a ladder: " + listed(parts) + " to start."
}

// lesson tells one step.
func (p *paper) lesson(lead string, l *glossladderv1.Lesson) {
	p.item(0, lessonAt, in(strong, lead), say(estimateWords(l.GetSuccessPct(), quantity{"accepted in %s of cases", "%", "panel", "panels", true})))
	for _, g := range l.GetGains() {
		p.para(lessonAt, say(estimateWords(g.GetGainGu(), quantity{fmt.Sprintf("gains %%s at %d°", g.GetAngle()), "GU", "trial", "trials", true})))
	}
	p.para(lessonAt, say(estimateWords(l.GetRemovalUm(), quantity{"takes %s of film", "µm", "measured trial", "measured trials", true})))
	p.para(lessonAt, say(estimateWords(l.GetTrialMinutes(), quantity{"takes %s for a section on trial", "min", "trial", "trials", true})))
	if work := l.GetWorkMinutes(); work.GetRecords() > 0 {
		p.para(lessonAt, say(estimateWords(work, quantity{"takes %s for a section of a panel", "min", "panel", "panels", false})))
	}
}

// quantity is how an estimate is told.
type quantity struct {
	says, unit, one, many string
	// usual says that something is stated as usual.
	usual bool
}

// estimateWords is an estimate, what it rests on, and how far it is drawn from that.
func estimateWords(e *glossladderv1.LessonEstimate, q quantity) string {
	figure := func(v float64) string {
		if q.unit == "%" {
			return fmt.Sprintf("%.0f", v)
		}
		return number(v)
	}
	value := func(v float64) string { return figure(v) + nbsp + q.unit }
	usual := ""
	if q.usual {
		usual = "; usual is " + value(e.GetUsual())
	}
	out := fmt.Sprintf(q.says, value(e.GetMean())) + fmt.Sprintf(" (%s to %s)", figure(max(0, e.GetLow())), figure(e.GetHigh()))
	switch {
	case e.GetRecords() == 0 && q.usual && figure(e.GetMean()) == figure(e.GetUsual()):
		return out + ", as usual; none on record"
	case e.GetRecords() == 0:
		return out + "; none on record" + usual
	}
	out += "; " + plural(int(e.GetRecords()), q.one, q.many)
	if e.Own == nil || figure(e.GetOwn()) == figure(e.GetMean()) {
		return out + usual
	}
	out += " alone would say " + value(e.GetOwn())
	if e.ShrunkPct != nil {
		out += fmt.Sprintf(", drawn %.0f%s%% of the way to the rest", e.GetShrunkPct(), nbsp)
	}
	return out + usual
}

// usually is the mildest step that is accepted more often than not.
func usually(said *glossladderv1.GetLessonsResponse) string {
	for _, l := range said.GetLessons() {
		if said.GetJobs() > 0 && l.GetSuccessPct().GetMean() > 50 {
			return "a " + stepWord(l.GetStep())
		}
	}
	return ""
}

func (p *paper) confidence(said *glossladderv1.GetLessonsResponse) {
	p.para(0, in(faint, fmt.Sprintf("Figures in brackets hold the truth with %s%s%% confidence. A step counts as accepted where it was tried before any stronger "+
		"one and its last trial was accepted, or a milder step was put after it. The fewer records, the more a figure is drawn towards what this shop's other panels show and what is usual.",
		number(said.GetConfidencePct()), nbsp)))
}

// AskedWords is a kind of panel in words: "soft, dark paint, wash marks of severity 2 to 2.5".
func AskedWords(req *glossladderv1.GetLessonsRequest, said *glossladderv1.GetLessonsResponse) string {
	var paint []string
	for _, word := range []string{plainWord(req.GetSoftness()), plainWord(req.GetShade())} {
		if word != "" {
			paint = append(paint, word)
		}
	}
	var parts []string
	if len(paint) > 0 {
		parts = append(parts, strings.Join(paint, ", ")+" paint")
	}
	marks := plainWord(req.GetDefect())
	if req.Severity != nil && len(said.GetLessons()) > 0 {
		if marks == "" {
			marks = "marks"
		}
		marks += " of severity " + said.GetLessons()[0].GetSeverities()
	}
	if marks != "" {
		parts = append(parts, marks)
	}
	return strings.Join(parts, "; ")
}
