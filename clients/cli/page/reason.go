package page

import (
	"fmt"
	"slices"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// because is a rule's own words and its place: "Soft paint corrects with little. (start.yaml:12 soft-light-marks)".
func because(reason *glossladderv1.Reason) []span {
	if reason.GetRuleId() == "" {
		if reason == nil {
			return nil
		}
		return []span{in(faint, fmt.Sprintf("(no rule of the table %s held)", reason.GetTable()))}
	}
	return []span{say(stopped(reason.GetBecause())), in(faint, place(reason))}
}

// ruled is because where there is a rule, and nothing where there is none.
func ruled(reason *glossladderv1.Reason) []span {
	if reason.GetRuleId() == "" {
		return nil
	}
	return because(reason)
}

// place is where a rule stands, for whoever wants to read or change it.
func place(reason *glossladderv1.Reason) string {
	if reason.GetRuleId() == "" {
		return ""
	}
	return fmt.Sprintf("(%s:%d%s%s)", reason.GetFile(), reason.GetLine(), nbsp, reason.GetRuleId())
}

// why is one reason: what was decided, the rule's words, and the facts that it saw on lines of their own.
func (p *paper) why(lead, decided string, reason *glossladderv1.Reason) {
	if reason == nil {
		return
	}
	spans := because(reason)
	if decided != "" {
		spans = append([]span{in(strong, decided+":")}, spans...)
	}
	p.item(lineAt, textAt, say(lead), spans...)
	p.seen(reason)
}

// seen is the facts that a rule saw.
func (p *paper) seen(reason *glossladderv1.Reason) {
	if reason.GetSentence() != "" {
		p.para(textAt, in(faint, "seen: "+reason.GetSentence()))
	}
}

// seenInFull is [paper.seen] where the facts would only be in the way of whoever has not asked for everything.
func (p *paper) seenInFull(reason *glossladderv1.Reason) {
	if p.style.Full {
		p.seen(reason)
	}
}

// cautions sets cautions under a heading for each level, the gravest first.
func (p *paper) cautions(indent int, title string, all []*glossladderv1.Caution) {
	if len(all) == 0 {
		return
	}
	p.blank()
	p.heading(indent, title)
	for _, of := range []struct {
		level glossladderv1.CautionLevel
		says  string
		role  role
	}{
		{glossladderv1.CautionLevel_CAUTION_LEVEL_DANGER, "DANGER: can hurt someone, or take off paint that cannot be put back", grave},
		{glossladderv1.CautionLevel_CAUTION_LEVEL_CARE, "CARE: can spoil the finish", wary},
		{glossladderv1.CautionLevel_CAUTION_LEVEL_NOTE, "NOTE: good to know", plain},
	} {
		ofLevel := slices.DeleteFunc(slices.Clone(all), func(c *glossladderv1.Caution) bool { return c.GetLevel() != of.level })
		if len(ofLevel) == 0 {
			continue
		}
		p.para(indent+2, in(of.role, of.says))
		for _, caution := range ofLevel {
			spans := []span{say(stopped(caution.GetDo()))}
			if p.style.Full {
				spans = append(spans, in(faint, stopped(caution.GetReason().GetBecause())))
			}
			spans = append(spans, in(faint, place(caution.GetReason())))
			p.item(indent+2, textAt, say(plainWord(caution.GetTopic())), spans...)
			p.seenInFull(caution.GetReason())
		}
	}
}

// wanted lists what would be worth learning, the most telling first.
func (p *paper) wanted(indent int, all []*glossladderv1.Wanted, namePanels bool) {
	if len(all) == 0 {
		return
	}
	p.blank()
	p.heading(indent, "Worth measuring next")
	for i, w := range all {
		spans := []span{say(stopped(upperFirst(w.GetLearn())))}
		if change := w.GetCouldChange(); change != "" {
			if w.GetCertain() {
				spans = append(spans, say(stopped(upperFirst(change))))
			} else {
				spans = append(spans, say("Perhaps: "+stopped(change)))
			}
		}
		if namePanels && len(w.GetPanelIds()) > 0 {
			spans = append(spans, in(faint, "("+listed(w.GetPanelIds())+")"))
		}
		p.item(indent+2, indent+5, say(fmt.Sprintf("%d.", i+1)), spans...)
	}
}
