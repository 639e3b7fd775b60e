package trace

import (
	"fmt"

	"github.com/glossladder/glossladder/service/history"
)

// Body reads a trace as the body of its event, with no more in it than the trace has: of an inspection the panels with softness,
// shade and defects, of readings the panel and when, of a trial also step, minutes and whether the section was fresh, of a decision
// rule set, trial and the verdict on each panel. What holds in the place of an event that has no trace is left out.
func (r *Reader) Body(data []byte) (history.Body, error) {
	body := r.body(r.begin(data), true)
	if r.err != nil {
		return nil, r.err
	}
	return body, nil
}

func (r *Reader) body(kind byte, whole bool) history.Body {
	switch {
	case kind == inspection:
		return r.inspection()
	case kind == readings:
		return &history.Readings{Panel: r.word(), When: history.When(r.word())}
	case kind == trial:
		t := &history.Trial{Panel: r.word(), Step: r.word()}
		t.FreshSection, t.Minutes = r.value().Flag, r.optional()
		return t
	case kind == decision:
		d := &history.Decision{}
		d.RuleSet, d.Trial = r.word(), r.varint()
		for range r.count(2) {
			d.Panels = append(d.Panels, history.PanelDecided{Panel: r.word(), Verdict: r.word()})
		}
		return d
	case kind == correction && whole:
		c := &history.Correction{Sequence: r.varint()}
		if r.byte() != 0 {
			c.Instead = r.body(r.byte(), false)
		}
		return c
	}
	r.fail(fmt.Errorf("the trace is of kind %d, which this program does not know; use a later program", kind))
	return nil
}

func (r *Reader) inspection() *history.Inspection {
	out := &history.Inspection{}
	for range r.count(4) {
		var p history.PanelFound
		r.found(&p)
		out.Panels = append(out.Panels, p)
	}
	return out
}

func (r *Reader) found(p *history.PanelFound) {
	p.ID, p.Softness, p.Shade = r.word(), r.word(), r.word()
	p.Defects = p.Defects[:0]
	for range r.count(2) {
		p.Defects = append(p.Defects, history.Defect{Kind: r.word(), Severity: r.optional()})
	}
}
