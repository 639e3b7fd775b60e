package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Verdict sets a verdict: what it is and why, what the trial showed, what comes next.
func Verdict(w io.Writer, v *glossladderv1.Verdict, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, v.GetPanelId()), say("·"), say(fmt.Sprintf("trial %d", len(v.GetEarlier())+1)), say("·"), verdictWords(v.GetKind()))
	p.para(titleAt, say(v.GetHeadline()))
	p.blank()
	p.ladderSoFar(v)
	p.next(v.GetNext())
	p.wanted(titleAt, v.GetMeasureNext(), false)
	p.shown(v)
	p.blank()
	p.heading(titleAt, "Why")
	p.why("verdict", plainWord(v.GetKind()), v.GetReason())
	p.why("film taken", stepWord(v.GetNext().GetStep()), v.GetNext().GetAdvice().GetRemovalReason())
	p.cautions(titleAt, "Cautions", v.GetCautions())
	p.decidedBy(v.GetRuleSet())
	return p.writeTo(w)
}

func verdictWords(kind glossladderv1.VerdictKind) span {
	text := strings.ToUpper(plainWord(kind))
	switch kind {
	case glossladderv1.VerdictKind_VERDICT_KIND_ACCEPT:
		return in(good, text)
	case glossladderv1.VerdictKind_VERDICT_KIND_STOP:
		return in(grave, text)
	}
	return in(wary, text)
}

func (p *paper) ladderSoFar(v *glossladderv1.Verdict) {
	p.item(titleAt, textAt, in(strong, "Ladder"), in(strong, ladderSoFar(v)))
	if len(v.GetEarlier()) > 0 {
		words := make([]string, len(v.GetEarlier()))
		for i, kind := range v.GetEarlier() {
			words[i] = plainWord(kind)
		}
		p.item(titleAt, textAt, say("before that"), say(strings.Join(words, ", ")))
	}
}

// ladderSoFar is what the trials have shown to be worth keeping, and whether that is all.
func ladderSoFar(v *glossladderv1.Verdict) string {
	switch {
	case v.GetProven():
		return ladderWords(v.GetLadder()) + ", proven"
	case len(v.GetKept()) == 0:
		return "nothing proven yet"
	case v.GetKind() == glossladderv1.VerdictKind_VERDICT_KIND_STOP:
		return ladderWords(v.GetLadder()) + ", and no further"
	}
	return ladderWords(v.GetLadder()) + ", not proven yet"
}

func marksLeft(v *glossladderv1.Verdict) string {
	text := "severity " + number(v.GetSeverityLeft())
	if v.SeverityAllowed != nil {
		text += ", and " + number(v.GetSeverityAllowed()) + " may stay"
	}
	return text
}

func (p *paper) shown(v *glossladderv1.Verdict) {
	if v.GetGloss() == nil && v.GetHaze() == nil && v.GetFilm() == nil && v.SeverityLeft == nil {
		return
	}
	p.blank()
	p.heading(titleAt, "What the trial showed")
	if v.SeverityLeft != nil {
		p.item(lineAt, textAt, say("marks left"), say(marksLeft(v)))
	}
	p.change(lineAt, fmt.Sprintf("gloss at %d°", v.GetGloss().GetAngle()), v.GetGloss())
	p.change(lineAt, "haze", v.GetHaze())
	p.filmTaken(lineAt, textAt, v.GetFilm())
}

func (p *paper) filmTaken(indent, hang int, f *glossladderv1.FilmTaken) {
	if f == nil {
		return
	}
	p.item(indent, hang, say("film taken"), say(fmt.Sprintf("%s (%s to %s); at least %s may still go",
		with(f.GetTakenUm(), "µm"), number(f.GetLowUm()), with(f.GetHighUm(), "µm"), with(f.GetUsableLeftUm(), "µm"))))
	if f.GetNote() != "" {
		p.para(hang, in(faint, f.GetNote()))
	}
}

func (p *paper) next(move *glossladderv1.NextMove) {
	if move == nil {
		return
	}
	p.blank()
	p.heading(titleAt, "Next")
	p.para(lineAt, say(stopped(upperFirst(move.GetDo()))))
	if change := move.GetChange(); change > glossladderv1.Change_CHANGE_NOTHING {
		p.item(lineAt, textAt, say("change only"), in(strong, plainWord(change)))
	}
	if move.GetAdvice() != nil {
		p.step(lineAt, textAt, stepWord(move.GetStep()), move.GetAdvice())
	}
}
