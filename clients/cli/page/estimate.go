package page

import (
	"fmt"
	"io"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Estimate sets an estimate: hours and price with their range, the ladders it counts with, and what would narrow it.
func Estimate(w io.Writer, label string, e *glossladderv1.Estimate, style Style) error {
	p := newPaper(style)
	if label == "" {
		label = "Estimate"
	}
	p.para(0, in(strong, label), say("· "+stageWords(e.GetStage())))
	p.item(titleAt, textAt, say("Hours"), in(strong, durationSpan(e.GetWorkMin())), say("of one person"))
	p.item(titleAt, textAt, say("Price"), in(strong, moneySpan(e.GetTotal())+","), say("of which materials"), say(heldTogether(money(e.GetMaterials()))))
	if doubt := e.GetLadderDoubtMin(); doubt >= 1 {
		p.item(titleAt, textAt, say("Doubt"), say(duration(doubt)), say("of the range are about which steps it needs; the rest is about areas and pace"))
	}
	p.blank()
	p.heading(titleAt, "Counted with")
	rows := make([][]span, 0, len(e.GetPanels()))
	for _, panel := range e.GetPanels() {
		name := panel.GetPanelId()
		if name == "" {
			name = plainWord(panel.GetPart())
			if n := panel.GetPieces(); n > 1 {
				name = fmt.Sprintf("%d × %s", n, name)
			}
		}
		rows = append(rows, []span{
			in(strong, name), say(ladderWords(panel.GetLow())), say(ladderWords(panel.GetLikely())), say(ladderWords(panel.GetHigh())), in(faint, panel.GetSource()),
		})
	}
	p.ledger([]string{"panel", "at least", "likely", "at most", "by"}, rows)
	if len(e.GetNarrows()) > 0 {
		p.blank()
		p.heading(titleAt, "What narrows it")
		for _, do := range e.GetNarrows() {
			p.item(lineAt, lineAt+2, say("-"), say(do))
		}
	}
	if p.style.Full {
		p.sources(e.GetSources())
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

func stageWords(s glossladderv1.EstimateStage) string {
	switch s {
	case glossladderv1.EstimateStage_ESTIMATE_STAGE_UNSEEN:
		return "before anyone has seen the vehicle"
	case glossladderv1.EstimateStage_ESTIMATE_STAGE_PARTLY_INSPECTED:
		return "some panels inspected, the others unseen"
	case glossladderv1.EstimateStage_ESTIMATE_STAGE_INSPECTED:
		return "every panel inspected, ladders not proven"
	case glossladderv1.EstimateStage_ESTIMATE_STAGE_PROVEN:
		return "every ladder proven"
	}
	return "not told"
}
