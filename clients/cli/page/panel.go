package page

import (
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Columns of a panel's details: section titles, their lines, and the text behind the lines' leads.
const (
	titleAt = 2
	lineAt  = 4
	textAt  = 18
)

// panel sets everything about one panel. What would be worth measuring is said only of a panel alone: of several it is
// said for all of them together.
// The steps are not repeated when another panel shows how they are run.
func (p *paper) panel(advice, like *glossladderv1.PanelAdvice, alone bool) {
	state := stateWords(advice.GetState())
	p.item(0, 0, in(strong, advice.GetPanelId()), say("·"), state)
	p.para(titleAt, say(advice.GetHeadline()))
	p.blank()
	p.item(titleAt, textAt, in(strong, "Ladder"), in(strong, ladderWords(advice.GetLadder())))
	p.item(titleAt, textAt, say("start"), say(stepWord(advice.GetStart())+", the mildest worth trying"))
	p.item(titleAt, textAt, say("limit"), say(stepWord(advice.GetLimit())+", the strongest that this panel allows"))
	p.item(titleAt, textAt, say("goal"), say(fmt.Sprintf("marks up to severity %s may stay", number(advice.GetAllowedSeverity()))))
	p.readiness(advice.GetReadiness())
	p.steps(advice.GetSteps(), like)
	p.leftOnPurpose(advice.GetLeftOnPurpose())
	if alone {
		p.wanted(titleAt, advice.GetMeasureNext(), false)
	}
	p.findings(titleAt, textAt, advice)
	p.reasons(advice, like)
	p.cautions(titleAt, "Cautions", advice.GetCautions())
}

func (p *paper) readiness(all []*glossladderv1.Readiness) {
	if len(all) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "Before work")
	for _, r := range all {
		lead := in(plain, plainWord(r.GetEffect()))
		switch r.GetEffect() {
		case glossladderv1.ReadinessEffect_READINESS_EFFECT_STOP, glossladderv1.ReadinessEffect_READINESS_EFFECT_REFER:
			lead.role = grave
		case glossladderv1.ReadinessEffect_READINESS_EFFECT_WAIT, glossladderv1.ReadinessEffect_READINESS_EFFECT_PREPARE:
			lead.role = wary
		}
		p.item(lineAt, textAt, lead, append([]span{in(strong, stopped(r.GetDo()))}, because(r.GetReason())...)...)
		p.seenInFull(r.GetReason())
	}
}

func (p *paper) steps(all []*glossladderv1.StepAdvice, like *glossladderv1.PanelAdvice) {
	if len(all) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "How to run it")
	if like != nil {
		p.para(lineAt, say("As on"), in(strong, like.GetPanelId()+"."))
	}
	for i, advice := range all {
		if like != nil {
			p.item(lineAt, textAt, in(strong, fmt.Sprintf("%d. %s", i+1, stepWord(advice.GetStep()))), say(removalWords(advice)))
			continue
		}
		p.step(lineAt, textAt, fmt.Sprintf("%d. %s", i+1, stepWord(advice.GetStep())), advice)
	}
}

func (p *paper) reasons(advice, like *glossladderv1.PanelAdvice) {
	p.blank()
	p.heading(titleAt, "Why")
	for _, d := range advice.GetDefects() {
		decided := plainWord(d.GetKind())
		if d.Severity != nil {
			decided += " " + number(d.GetSeverity())
		}
		p.why("start", decided+", "+stepWord(d.GetStart()), d.GetReason())
	}
	p.why("limit", stepWord(advice.GetLimit()), advice.GetLimitReason())
	p.why("ladder", ladderWords(advice.GetLadder()), advice.GetLadderReason())
	if policy := advice.GetFilm().GetPolicy(); policy != nil {
		p.why("film policy", "", policy)
	}
	if like != nil {
		return
	}
	for _, s := range advice.GetSteps() {
		p.why("film taken", stepWord(s.GetStep()), s.GetRemovalReason())
	}
}

func (p *paper) leftOnPurpose(all []string) {
	if len(all) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "Left on purpose")
	for _, text := range all {
		p.item(lineAt, lineAt+2, say("-"), say(stopped(upperFirst(strings.TrimSpace(text)))))
	}
}
