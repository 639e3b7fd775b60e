package page

import (
	"fmt"
	"io"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Story tells a job in short paragraphs with pieces of the service's answers between them.
type Story struct{ p *paper }

// NewStory begins an empty story.
func NewStory(style Style) *Story { return &Story{p: newPaper(style)} }

// Print writes the story so far.
func (s *Story) Print(w io.Writer) error { return s.p.writeTo(w) }

// Chapter begins a part.
func (s *Story) Chapter(title string) {
	s.p.gap()
	s.p.heading(0, title)
}

// Tell is a paragraph of the story itself.
func (s *Story) Tell(text string) { s.p.para(0, say(text)) }

// Panels shows the table of panels and where to test first.
func (s *Story) Panels(r *glossladderv1.Recommendation) {
	s.p.gap()
	s.p.panels(titleAt, r)
	s.p.gap()
	for _, g := range r.GetGroups() {
		s.p.group(titleAt, g)
	}
	s.p.gap()
}

// Advice shows one panel's headline, why it starts and ends where it does, and how to run its first step.
func (s *Story) Advice(advice *glossladderv1.PanelAdvice) {
	s.p.gap()
	s.p.item(titleAt, textAt, in(strong, advice.GetPanelId()), say(advice.GetHeadline()))
	for _, d := range advice.GetDefects() {
		if d.GetStart() == advice.GetStart() {
			s.p.item(titleAt, textAt, say("start"), because(d.GetReason())...)
			break
		}
	}
	s.p.item(titleAt, textAt, say("limit"), because(advice.GetLimitReason())...)
	if steps := advice.GetSteps(); len(steps) > 0 {
		s.p.item(titleAt, textAt, say(stepWord(steps[0].GetStep())), say(combinationWords(steps[0].GetCombination())))
		s.p.para(textAt, say(settingsWords(steps[0].GetSettings())))
		s.p.para(textAt, say(removalWords(steps[0])))
	}
	s.p.gap()
}

// Cautions says how many cautions there are and shows the first of each level.
func (s *Story) Cautions(all []*glossladderv1.Caution) {
	count := map[glossladderv1.CautionLevel]int{}
	for _, c := range all {
		count[c.GetLevel()]++
	}
	s.Tell(fmt.Sprintf("With it come %s for the whole job: %d of danger, %d of care, %d good to know. The first of each:",
		plural(len(all), "caution", "cautions"), count[glossladderv1.CautionLevel_CAUTION_LEVEL_DANGER],
		count[glossladderv1.CautionLevel_CAUTION_LEVEL_CARE], count[glossladderv1.CautionLevel_CAUTION_LEVEL_NOTE]))
	s.p.gap()
	seen := map[glossladderv1.CautionLevel]bool{}
	for _, c := range all {
		if !seen[c.GetLevel()] {
			seen[c.GetLevel()] = true
			s.p.item(titleAt, textAt, say(plainWord(c.GetLevel())), say(stopped(c.GetDo())), in(faint, place(c.GetReason())))
		}
	}
	s.p.gap()
}

// Verdict shows what a trial proved, why, and the next move in one line.
func (s *Story) Verdict(v *glossladderv1.Verdict) {
	s.p.gap()
	s.p.item(titleAt, textAt, say("verdict"), in(verdictWords(v.GetKind()).role, v.GetHeadline()))
	s.p.item(titleAt, textAt, say("because"), because(v.GetReason())...)
	s.p.change(titleAt, fmt.Sprintf("gloss at %d°", v.GetGloss().GetAngle()), v.GetGloss())
	s.p.change(titleAt, "haze", v.GetHaze())
	s.p.filmTaken(titleAt, textAt, v.GetFilm())
	if v.SeverityLeft != nil {
		s.p.item(titleAt, textAt, say("marks left"), say(marksLeft(v)))
	}
	s.p.item(titleAt, textAt, say("ladder"), in(strong, ladderSoFar(v)))
	s.p.gap()
}

// Life shows what all visits took off a vehicle.
func (s *Story) Life(film *glossladderv1.VehicleFilm) {
	s.p.gap()
	for _, panel := range film.GetPanels() {
		if len(panel.GetVisits()) > 0 {
			s.p.item(titleAt, textAt, in(strong, panel.GetPanelId()), say(takenWords(panel.GetLife())+"; the next visit counts "+with(panel.GetLife().GetHighUm(), "µm")+" as gone"))
		}
	}
	s.p.gap()
}

// Usable shows a panel's ladder and the film that may still go.
func (s *Story) Usable(advice *glossladderv1.PanelAdvice) {
	s.p.gap()
	s.p.item(titleAt, textAt, in(strong, advice.GetPanelId()), say(advice.GetHeadline()))
	s.p.item(titleAt, textAt, say("may still go"), in(strong, with(advice.GetFilm().GetUsableUm(), "µm")))
	s.p.para(textAt, in(faint, advice.GetFilm().GetUsableBecause()))
	s.p.gap()
}

// Lesson shows what the shop has learned of one step; nothing where the record has no such step.
func (s *Story) Lesson(said *glossladderv1.GetLessonsResponse, step glossladderv1.Step) {
	for _, lesson := range said.GetLessons() {
		if lesson.GetStep() == step {
			s.p.gap()
			s.p.lesson(stepWord(step), lesson)
			s.p.gap()
		}
	}
}

// Commands shows command lines to try, each on a line that is not wrapped.
func (s *Story) Commands(lines ...string) {
	s.p.gap()
	for _, line := range lines {
		s.p.line(titleAt, []span{in(strong, line)})
	}
}
