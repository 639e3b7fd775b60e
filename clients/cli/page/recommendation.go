package page

import (
	"fmt"
	"io"
	"slices"

	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Recommendation sets a recommendation. Several panels begin with a table of all of them and where to test first.
func Recommendation(w io.Writer, r *glossladderv1.Recommendation, style Style) error {
	p := newPaper(style)
	several := len(r.GetPanels()) > 1
	if several {
		p.overview(r)
	}
	for _, advice := range r.GetPanels() {
		if several {
			p.blank()
		}
		p.panel(advice, runLike(advice, r), !several)
	}
	p.cautions(0, "Cautions for the whole job", r.GetCautions())
	p.decidedBy(r.GetRuleSet())
	return p.writeTo(w)
}

func (p *paper) overview(r *glossladderv1.Recommendation) {
	p.panels(0, r)
	p.groups(r.GetGroups())
	p.wanted(0, r.GetMeasureNext(), true)
}

// panels is the table of all panels.
func (p *paper) panels(indent int, r *glossladderv1.Recommendation) {
	rows := make([][]span, 0, len(r.GetPanels()))
	for _, advice := range r.GetPanels() {
		film, gloss := in(faint, "not read"), in(faint, "not read")
		if f := advice.GetFilm(); f != nil {
			film = say(with(f.GetUsableUm(), "µm"))
		}
		if g := advice.GetGloss(); g.GetAngle() != 0 {
			gloss = say(fmt.Sprintf("%s at %d°", reading(g.GetMeanGu(), "GU"), g.GetAngle()))
		}
		rows = append(rows, []span{
			in(strong, advice.GetPanelId()), stateWords(advice.GetState()), say(ladderWords(advice.GetLadder())), film, gloss,
		})
	}
	p.grid(indent, []string{"panel", "state", "ladder", "may still go", "gloss"}, rows)
}

func (p *paper) groups(groups []*glossladderv1.PanelGroup) {
	if len(groups) == 0 {
		return
	}
	p.blank()
	p.heading(0, "Where to test first")
	for _, g := range groups {
		p.group(titleAt, g)
	}
}

// group names the panel to test first, what to prove on it, for which panels and why it.
func (p *paper) group(indent int, g *glossladderv1.PanelGroup) {
	ladder := ladderWords(g.GetLadder()) + ","
	if len(g.GetPanelIds()) > 1 {
		ladder += " for " + listed(g.GetPanelIds()) + ";"
	}
	p.item(indent, textAt, in(strong, g.GetTestFirst()), say(ladder), say(stopped(g.GetBecause())))
}

// runLike is the panel that shows how to run the steps of another: the one of its group to test first, if the steps are
// run the same way. It is nil for a panel that shows its own.
func runLike(advice *glossladderv1.PanelAdvice, r *glossladderv1.Recommendation) *glossladderv1.PanelAdvice {
	for _, g := range r.GetGroups() {
		if g.GetTestFirst() == advice.GetPanelId() || !slices.Contains(g.GetPanelIds(), advice.GetPanelId()) {
			continue
		}
		for _, other := range r.GetPanels() {
			if other.GetPanelId() == g.GetTestFirst() && slices.EqualFunc(advice.GetSteps(), other.GetSteps(), runAlike) {
				return other
			}
		}
	}
	return nil
}

// runAlike says that two steps differ at most in the film they leave.
func runAlike(a, b *glossladderv1.StepAdvice) bool {
	return a.GetStep() == b.GetStep() && proto.Equal(a.GetCombination(), b.GetCombination()) && proto.Equal(a.GetSettings(), b.GetSettings()) &&
		proto.Equal(a.GetRemoval(), b.GetRemoval()) && proto.Equal(a.GetReason(), b.GetReason())
}

// decidedBy names the rule set, short: its beginning is enough to tell two apart.
func (p *paper) decidedBy(hash string) {
	if hash == "" {
		return
	}
	p.blank()
	p.para(0, in(faint, "Decided by rule set "+hash[:min(12, len(hash))]+"."))
}
