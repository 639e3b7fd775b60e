package page

import (
	"fmt"
	"io"
	"slices"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Hints tells which bounds of the rules the outcomes on record speak against. Most is how many regions of the effect are shown for
// each.
func Hints(w io.Writer, said *glossladderv1.ListRuleHintsResponse, most int, style Style) error {
	p := newPaper(style)
	if len(said.GetHints()) == 0 {
		p.para(0, in(good, "No bound of the start table stands out."), say("Either the outcomes on record agree with the rules, or too few of them tell."))
		return p.writeTo(w)
	}
	p.heading(0, plural(len(said.GetHints()), "bound that outcomes", "bounds that outcomes")+" on record speak against")
	p.para(0, in(faint, "Nothing is changed by this. Neighbouring hints often come from the same panels: change one thing, and look again."))
	for _, hint := range said.GetHints() {
		p.gap()
		p.hint(hint, most)
	}
	p.gap()
	p.heading(0, "What this cannot tell")
	for _, limit := range said.GetLimits() {
		p.item(0, 2, in(faint, "·"), in(faint, limit))
	}
	return p.writeTo(w)
}

func (p *paper) hint(h *glossladderv1.RuleHint, most int) {
	where := h.GetRuleId()
	if where == "" {
		where = "let " + h.GetLet()
	}
	p.para(0, in(strong, where), in(faint, fmt.Sprintf("(%s:%d)", h.GetFile(), h.GetLine())))
	p.item(2, textAt, say("now"), say(h.GetBefore()))
	p.item(2, textAt, say("better"), in(wary, changed(h.GetAfter())))
	p.item(2, textAt, say("evidence"), say(fmt.Sprintf("%s on record would have started otherwise; the outcome speaks for it on %d, against it on %d%s. That is %s%s%% sure.",
		plural(int(h.GetPanels()), "panel", "panels"), h.GetForChange(), h.GetAgainst(), openWords(h), number(h.GetSurelyPct()), nbsp)))
	p.item(2, textAt, say("worth"), say("it would have "+savedWords(&glossladderv1.ReplayTally{
		TrialsSaved: h.GetTrialsSaved(), TrialsTimed: h.GetTrialsTimed(), MinutesSaved: h.GetMinutesSaved(), FilmSavedUm: h.GetFilmSavedUm(),
	})))
	if len(h.GetExamples()) > 0 {
		p.item(2, textAt, say("such as"), in(faint, exampleWords(h.GetExamples())))
	}
	p.effect(h, most)
}

// effect lists the regions of input whose answer a hint changes.
func (p *paper) effect(h *glossladderv1.RuleHint, most int) {
	var lines []string
	for _, e := range h.GetEffects() {
		line := fmt.Sprintf("%s → %s where %s", e.GetBefore(), e.GetAfter(), strings.Join(besideRecord(e.GetWhere()), "; "))
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	for i, line := range lines {
		if most > 0 && i == most {
			p.para(textAt, in(faint, "and "+plural(len(lines)-i+int(h.GetMoreEffects()), "more region", "more regions")))
			break
		}
		lead := ""
		if i == 0 {
			lead = "effect"
		}
		p.item(2, textAt, say(lead), say(line))
	}
}

// besideRecord leaves out bounds on the shop's own record: they say only that the record does not settle the matter by itself.
func besideRecord(where []string) []string {
	return slices.DeleteFunc(slices.Clone(where), func(bound string) bool {
		return strings.HasPrefix(bound, "panels on record") || strings.HasPrefix(bound, "chance of a ")
	})
}

// changed is a bound as it would be, or that it would be left out.
func changed(after string) string {
	if after == "" {
		return "left out"
	}
	return after
}

func openWords(h *glossladderv1.RuleHint) string {
	if h.GetOpen() == 0 {
		return ""
	}
	if h.GetOpen() == 1 {
		return ", and 1 is open"
	}
	return fmt.Sprintf(", and %d are open", h.GetOpen())
}
