package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Plan sets the plan of a vehicle, and its bay time where it was asked for.
func Plan(w io.Writer, label string, answer *glossladderv1.PlanJobResponse, style Style) error {
	p := newPaper(style)
	p.plan(label, answer.GetPlan())
	p.bay(answer.GetBay())
	p.decidedBy(answer.GetPlan().GetRuleSet())
	return p.writeTo(w)
}

func (p *paper) plan(label string, plan *glossladderv1.WorkPlan) {
	p.sums(label, plan)
	p.stepWork(plan.GetSteps())
	p.panelWork(plan)
	p.timeLines(plan.GetLines())
	p.materials(plan.GetMaterials())
	p.exposure(plan.GetExposure())
	p.planNotes(plan.GetNotes())
	if p.style.Full {
		p.sources(plan.GetSources())
	}
}

// sums are hours and money, the first things that anybody asks for.
func (p *paper) sums(label string, plan *glossladderv1.WorkPlan) {
	worked := 0
	for _, panel := range plan.GetPanels() {
		if len(panel.GetSteps()) > 0 {
			worked++
		}
	}
	if label == "" {
		label = "Plan"
	}
	p.para(0, in(strong, label), say(fmt.Sprintf("· %s, %d worked", plural(len(plan.GetPanels()), "panel", "panels"), worked)))
	p.item(titleAt, textAt, say("Hours"), in(strong, durationSpan(plan.GetWorkMin())), say("of one person"))
	if still := plan.GetStillMin(); still != nil {
		p.item(titleAt, textAt, say("Still to do"), in(strong, durationSpan(still)), say("by the steps on record"))
	}
	if wait := plan.GetWaitMin(); wait.GetLikely() > 0 {
		p.item(titleAt, textAt, say("Waiting"), say(durationSpan(wait)), say("while a panel cools and there is no other to work"))
	}
	if cure := plan.GetCureMin(); cure > 0 {
		p.item(titleAt, textAt, say("Standing"), say(duration(cure)), say("after the last wipe, before it is handed over"))
	}
	cost := plan.GetCost()
	p.item(titleAt, textAt, say("Cost"), in(strong, moneySpan(cost.GetTotal())+":"), say("materials"), say(heldTogether(money(cost.GetMaterials()))+","),
		say("work"), say(heldTogether(money(cost.GetLabour().GetLikely()))), say("at"), say(heldTogether(money(cost.GetHourlyRate()))), say("an hour"))
}

func (p *paper) stepWork(steps []*glossladderv1.StepWork) {
	if len(steps) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "Steps, in the order of work")
	for i, step := range steps {
		p.item(lineAt, textAt, in(strong, fmt.Sprintf("%d. %s", i+1, stepWord(step.GetStep()))),
			say(plural(int(step.GetPanels()), "panel", "panels")+","), say(plural(int(step.GetSections()), "section", "sections")+","), say(durationSpan(step.GetMinutes())))
		for _, use := range step.GetPads() {
			p.item(textAt, textAt, span{}, say(padsInWords(use)))
		}
	}
}

func padsInWords(use *glossladderv1.PadUse) string {
	text := fmt.Sprintf("%d × %s", use.GetPads(), orNone(use.GetPadId(), "a pad that the catalogue lacks"))
	text += " with " + orNone(use.GetLiquidId(), "a liquid that the catalogue lacks")
	if len(use.GetChangeAt()) > 0 {
		text += "; a fresh one at " + listed(use.GetChangeAt())
	}
	return text
}

func orNone(id, otherwise string) string {
	if id == "" {
		return otherwise
	}
	return id
}

// areaWords is the area that a panel is reckoned with, and whether the shop measured it.
func areaWords(panel *glossladderv1.PanelWork) string {
	if panel.GetAreaSource() == "measured" {
		return measuredArea(panel.GetAreaM2().GetLikely())
	}
	return with(panel.GetAreaM2().GetLikely(), "m²")
}

func (p *paper) panelWork(plan *glossladderv1.WorkPlan) {
	p.blank()
	p.heading(titleAt, "Panels, in the order of work")
	rows := make([][]span, 0, len(plan.GetPanels()))
	for _, panel := range plan.GetPanels() {
		left := in(faint, "not known")
		if l := panel.GetLeftUm(); l != nil {
			left = say("at least" + nbsp + with(l.GetLow(), "µm"))
			if l.GetLow() < 1 {
				left.role = wary
			}
		}
		takes := in(faint, "nothing")
		if t := panel.GetTakes(); t.GetHighUm() > 0 {
			takes = say("up to" + nbsp + with(t.GetHighUm(), "µm"))
		}
		ladder := ladderWords(panel.GetLadder())
		if panel.GetProven() {
			ladder += " *"
		}
		rows = append(rows, []span{
			in(strong, panel.GetPanelId()), say(ladder), say(areaWords(panel)), say(duration(panel.GetMinutes().GetLikely())), takes, left,
		})
	}
	p.grid(lineAt, []string{"panel", "ladder", "area", "time", "takes", "may still go"}, rows)
	for _, panel := range plan.GetPanels() {
		if panel.GetProven() {
			p.para(lineAt, in(faint, "* proved on this panel"))
			break
		}
	}
	p.leftAlone(plan.GetPanels())
}

// leftAlone says why panels get no ladder, each reason once.
func (p *paper) leftAlone(panels []*glossladderv1.PanelWork) {
	var reasons []string
	ids := map[string][]string{}
	for _, panel := range panels {
		why := panel.GetLeftAlone()
		if why == "" {
			continue
		}
		if ids[why] == nil {
			reasons = append(reasons, why)
		}
		ids[why] = append(ids[why], panel.GetPanelId())
	}
	for _, why := range reasons {
		p.item(lineAt, lineAt+2, say("-"), say(listed(ids[why])+":"), say(why))
	}
}

func (p *paper) timeLines(lines []*glossladderv1.TimeLine) {
	p.blank()
	p.heading(titleAt, "Where the hours go")
	var rows [][]span
	for _, line := range lines {
		if line.GetMinutes().GetHigh() < 0.5 {
			continue
		}
		from := listed(line.GetSources())
		if n := len(line.GetSources()); n > 1 && !p.style.Full {
			from = fmt.Sprintf("%s and %d more", line.GetSources()[0], n-1)
		}
		rows = append(rows, []span{say(line.GetWhat()), say(durationSpan(line.GetMinutes())), in(faint, from)})
	}
	p.ledger([]string{"work", "time", "by"}, rows)
}

func (p *paper) materials(lines []*glossladderv1.MaterialLine) {
	if len(lines) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "Materials")
	rows := make([][]span, 0, len(lines))
	for _, m := range lines {
		quantity := with(m.GetQuantity(), m.GetUnit())
		if m.GetUnit() == "pieces" {
			quantity = plural(int(m.GetQuantity()+0.5), "piece", "pieces")
		}
		rows = append(rows, []span{say(m.GetId()), say(quantity), say(money(m.GetPrice())), in(faint, m.GetSource())})
	}
	p.ledger([]string{"what", "how much", "costs", "by"}, rows)
}

// exposure is the day of each person with machines in the hands. What to mind stands below the figures, and who decides last.
func (p *paper) exposure(day *glossladderv1.ExposureDay) {
	if day == nil {
		return
	}
	p.blank()
	p.heading(titleAt, "A person's day with machines in the hands")
	p.item(lineAt, textAt, say("time"), say(duration(day.GetHandsMin())), say("a day, over "+plural(int(day.GetDays()), "day", "days")))
	if v := day.GetVibration(); v != nil {
		p.item(lineAt, textAt, say("vibration"), say(fmt.Sprintf("A(8) %s m/s², %.0f points,", number(v.GetA8Ms2()), v.GetPoints())),
			in(bandRole(v.GetBand()), bandWords(v.GetBand())+";"),
			say(fmt.Sprintf("at most %s m/s²,", number(v.GetHighA8Ms2()))), in(bandRole(v.GetHighBand()), bandWords(v.GetHighBand())),
			in(faint, fmt.Sprintf("(action value %s, limit %s)", number(v.GetActionMs2()), number(v.GetLimitMs2()))))
	}
	if n := day.GetNoise(); n != nil {
		p.item(lineAt, textAt, say("noise"), say(dailyNoise(n)), say(noiseWords(n.GetBand())), in(faint, noiseLimits(n)))
	}
	for _, caution := range day.GetCautions() {
		p.item(lineAt, lineAt+2, in(wary, "!"), say(caution))
	}
}

func dailyNoise(n *glossladderv1.NoiseExposure) string {
	if n.GetDailyDba() == 0 {
		return "nothing loud enough to count,"
	}
	return number(n.GetDailyDba()) + " dB(A) a day,"
}

// noiseLimits says what a day of noise is held against.
func noiseLimits(n *glossladderv1.NoiseExposure) string {
	text := fmt.Sprintf("(%s, %s and %s", number(n.GetLowerActionDba()), number(n.GetUpperActionDba()), number(n.GetLimitDba()))
	if n.GetExchangeDb() != equalEnergyDB {
		text += fmt.Sprintf("; %s dB more halve the time", number(n.GetExchangeDb()))
	}
	return text + ")"
}

const equalEnergyDB = 3

func bandWords(b glossladderv1.ExposureBand) string {
	switch b {
	case glossladderv1.ExposureBand_EXPOSURE_BAND_BELOW_ACTION:
		return "below the action value"
	case glossladderv1.ExposureBand_EXPOSURE_BAND_ACTION:
		return "at or over the action value"
	case glossladderv1.ExposureBand_EXPOSURE_BAND_OVER_LIMIT:
		return "over the limit"
	}
	return "not reckoned"
}

func bandRole(b glossladderv1.ExposureBand) role {
	switch b {
	case glossladderv1.ExposureBand_EXPOSURE_BAND_ACTION:
		return wary
	case glossladderv1.ExposureBand_EXPOSURE_BAND_OVER_LIMIT:
		return grave
	}
	return plain
}

func noiseWords(b glossladderv1.NoiseBand) string {
	switch b {
	case glossladderv1.NoiseBand_NOISE_BAND_BELOW_LOWER_ACTION:
		return "below the action values"
	case glossladderv1.NoiseBand_NOISE_BAND_LOWER_ACTION:
		return "at or over the lower action value"
	case glossladderv1.NoiseBand_NOISE_BAND_UPPER_ACTION:
		return "at or over the upper action value"
	case glossladderv1.NoiseBand_NOISE_BAND_OVER_LIMIT:
		return "over the limit without protection"
	}
	return "not reckoned"
}

func (p *paper) planNotes(notes []string) {
	if len(notes) == 0 {
		return
	}
	p.blank()
	p.heading(titleAt, "Mind")
	for _, note := range notes {
		p.item(lineAt, lineAt+2, say("-"), say(note))
	}
}

// sources are the rules behind the figures, with their reasons.
func (p *paper) sources(sources []*glossladderv1.SourceInfo) {
	p.blank()
	p.heading(titleAt, "Where the figures come from")
	for _, s := range sources {
		p.item(lineAt, lineAt+2, say("-"), in(strong, s.GetText()), say(s.GetReason().GetBecause()))
	}
}

// bay is the stretches of bay time, by the clock of the one who reads.
func (p *paper) bay(bay *glossladderv1.BayTime) {
	if bay == nil {
		return
	}
	p.blank()
	p.heading(titleAt, "In the bay")
	for _, block := range bay.GetBlocks() {
		from, to := block.GetStartTime().AsTime().In(p.style.zone()), block.GetEndTime().AsTime().In(p.style.zone())
		p.item(lineAt, lineAt+26, say(strings.ReplaceAll(from.Format("Mon 2006-01-02 15:04")+"–"+to.Format("15:04"), " ", nbsp)), say(block.GetWhat()))
	}
	p.item(lineAt, lineAt+26, say(strings.ReplaceAll(bay.GetReadyTime().AsTime().In(p.style.zone()).Format("Mon 2006-01-02 15:04"), " ", nbsp)), in(strong, "ready to be handed over"))
}
