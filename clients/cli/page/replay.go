package page

import (
	"fmt"
	"io"
	"slices"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Replay tells what another rule set would have answered to what is on record. Name is what the set is called; most is how many
// classes and changes are shown, 0: all.
func Replay(w io.Writer, r *glossladderv1.ReplayReport, name string, most int, style Style) error {
	p := newPaper(style)
	p.heading(0, fmt.Sprintf("%s held against the record", name))
	p.para(0, say(fmt.Sprintf("%s on %s asked again, made by %s.", plural(int(r.GetDecisions()), "decision", "decisions"),
		plural(int(r.GetPanels()), "panel", "panels"), plural(int(r.GetRuleSets()), "rule set", "rule sets"))))
	if r.GetDecisions() == 0 {
		p.para(0, in(faint, "There is no decision on record yet. Record inspections and trials with glossladder job."))
		return p.writeTo(w)
	}
	p.blank()
	if changedIn(r.GetAll()) == 0 {
		p.para(0, in(good, "Nothing would have been answered otherwise."))
		p.unfollowed(r)
		return p.writeTo(w)
	}
	p.para(0, in(strong, "What would change: "), say(changedWords(r.GetAll())+"."))
	p.outcomes(r.GetAll())
	p.moves(r.GetMoves(), most)
	p.classes(r.GetClasses(), most)
	p.unfollowed(r)
	p.gap()
	p.heading(0, "What this cannot tell")
	for _, limit := range r.GetLimits() {
		p.item(0, 2, in(faint, "·"), in(faint, limit))
	}
	return p.writeTo(w)
}

// counts of a tally by what they count.
func counts(t *glossladderv1.ReplayTally) []struct {
	n         int32
	one, many string
} {
	return []struct {
		n         int32
		one, many string
	}{
		{t.GetStarts(), "start", "starts"},
		{t.GetLimits(), "limit", "limits"},
		{t.GetReadiness(), "panel's readiness", "panels' readiness"},
		{t.GetLadders(), "ladder", "ladders"},
		{t.GetSettings(), "panel's settings", "panels' settings"},
		{t.GetCautions(), "panel's cautions", "panels' cautions"},
		{t.GetVerdicts(), "verdict", "verdicts"},
	}
}

func changedIn(t *glossladderv1.ReplayTally) int32 {
	var sum int32
	for _, c := range counts(t) {
		sum += c.n
	}
	return sum
}

func changedWords(t *glossladderv1.ReplayTally) string {
	var parts []string
	for _, c := range counts(t) {
		if c.n > 0 {
			parts = append(parts, plural(int(c.n), c.one, c.many))
		}
	}
	return listed(parts)
}

// outcomes tells which answers the outcomes speak for, and what the new ones would have saved.
func (p *paper) outcomes(t *glossladderv1.ReplayTally) {
	judged := t.GetForNew() + t.GetForOld() + t.GetForNeither()
	if judged+t.GetOpen() == 0 {
		p.para(0, in(strong, "What came of it: "), say("no panel that would start otherwise has trials on record."))
		return
	}
	text := fmt.Sprintf("of %s whose trials tell, the outcome speaks for the new answer on %d, for the old on %d, for neither on %d; %d are open, since nobody tried.",
		plural(int(judged), "panel", "panels"), t.GetForNew(), t.GetForOld(), t.GetForNeither(), t.GetOpen())
	p.para(0, in(strong, "What came of it: "), say(text))
	if judged == 0 {
		return
	}
	p.para(0, in(strong, "The new answers would have "), say(savedWords(t)+"."))
}

func savedWords(t *glossladderv1.ReplayTally) string {
	trials := "saved no trial"
	if n := int(t.GetTrialsSaved()); n != 0 {
		verb, count := "saved", n
		if n < 0 {
			verb, count = "cost", -n
		}
		trials = verb + " " + plural(count, "trial", "trials")
		if timed := int(t.GetTrialsTimed()); timed != 0 {
			trials += fmt.Sprintf(" (%s, by the %d that were timed)", with(abs(t.GetMinutesSaved()), "min"), max(timed, -timed))
		}
	}
	film := "left the film as it is"
	switch um := t.GetFilmSavedUm(); {
	case um > 0:
		film = "kept " + with(um, "µm") + " of film on the panels, all together"
	case um < 0:
		film = "taken " + with(-um, "µm") + " more film off the panels, all together"
	}
	return trials + ", and " + film
}

func abs(v float64) float64 { return max(v, -v) }

// moves lists the changes of answers, table by table.
func (p *paper) moves(all []*glossladderv1.AnswerMove, most int) {
	var rows [][]span
	left := 0
	for _, m := range all {
		if m.GetBefore() == "" && m.GetAfter() == "" {
			continue // settings and cautions are counted above
		}
		if most > 0 && len(rows) == most {
			left++
			continue
		}
		rows = append(rows, []span{
			say(m.GetTable()), say(answerOr(m.GetBefore()) + " → " + answerOr(m.GetAfter())), say(fmt.Sprint(m.GetPanels())), in(faint, exampleWords(m.GetExamples())),
		})
	}
	if len(rows) == 0 {
		return
	}
	p.gap()
	p.heading(0, "Changes of answers")
	p.ledger([]string{"table", "answer", "panels", "such as"}, rows)
	p.more(left)
}

func (p *paper) more(left int) {
	if left > 0 {
		p.para(lineAt, in(faint, fmt.Sprintf("and %d more; --most 0 shows all", left)))
	}
}

func answerOr(answer string) string {
	if answer == "" {
		return "nothing"
	}
	return strings.ReplaceAll(answer, "-", " ")
}

// exampleWords is the first example: the job, the event and the panel.
func exampleWords(all []*glossladderv1.PanelOnRecord) string {
	if len(all) == 0 {
		return ""
	}
	parts := strings.Split(all[0].GetDecision(), "/")
	if len(parts) < 4 {
		return all[0].GetDecision()
	}
	return fmt.Sprintf("%s, event %s, %s", parts[1], parts[3], all[0].GetPanelId())
}

// classes lists the classes of panel in which something changes.
func (p *paper) classes(all []*glossladderv1.ReplayClass, most int) {
	p.gap()
	p.heading(0, "By class of panel")
	shown := all
	if most > 0 && len(all) > most {
		shown = all[:most]
	}
	var rows [][]span
	for _, c := range shown {
		t := c.GetTally()
		rows = append(rows, []span{
			say(fmt.Sprint(t.GetPanels())), say(fmt.Sprint(t.GetStarts())), say(fmt.Sprint(t.GetLimits())), say(fmt.Sprint(t.GetLadders())),
			say(fmt.Sprint(t.GetVerdicts())), say(forWords(t)), say(classWords(c)),
		})
	}
	p.ledger([]string{"asked", "starts", "limits", "ladders", "verdicts", "new:old:open", "class"}, rows)
	p.more(len(all) - len(shown))
}

func classWords(c *glossladderv1.ReplayClass) string {
	softness := plainWord(c.GetSoftness())
	if softness == "" {
		softness = "softness not known"
	}
	marks := plainWord(c.GetDefect())
	if marks == "" {
		return softness + ", no marks named"
	}
	if c.GetSeverities() == "not graded" {
		return softness + ", " + marks + " not graded"
	}
	return softness + ", " + marks + " " + strings.ReplaceAll(c.GetSeverities(), " ", nbsp)
}

func forWords(t *glossladderv1.ReplayTally) string {
	return fmt.Sprintf("%d:%d:%d", t.GetForNew(), t.GetForOld(), t.GetOpen())
}

// unfollowed tells what the comparison had to leave out of this record.
func (p *paper) unfollowed(r *glossladderv1.ReplayReport) {
	var lines []string
	if fields := r.GetUnfollowed(); len(fields) > 0 {
		var names []string
		for _, f := range fields {
			names = append(names, f.GetField())
		}
		slices.Sort(names)
		lines = append(lines, "The policy differs in "+listed(names)+"; what hangs on that is not followed.")
	}
	if n := int(r.GetUnknownSets()); n > 0 {
		lines = append(lines, fmt.Sprintf("The rules that decided on %s are not kept: there, changed numbers of policy and removal are not followed.", plural(n, "panel", "panels")))
	}
	if n := int(r.GetStrangeFacts()); n > 0 {
		lines = append(lines, plural(n, "fact on record is", "facts on record are")+" no longer in the vocabulary and counted as not known.")
	}
	if len(lines) > 0 {
		p.gap()
	}
	for _, line := range lines {
		p.para(0, in(wary, line))
	}
}
