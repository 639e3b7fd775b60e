package report

import (
	"slices"

	"github.com/glossladder/glossladder/service/history"
)

// panel puts one panel together.
func (m *maker) panel(now *history.Panel) (*Panel, error) {
	start := m.before(now.ID)
	if start.FoundAt == 0 {
		start = now
	}
	p := &Panel{Found: start.Found, Planned: now.Ladder}
	seen := &Inspected{}
	if start.FoundAt > 0 {
		var err error
		if seen, err = m.given.Documents.Inspection(start.FoundDocument); err != nil {
			return nil, err
		}
		p.Seen = seen.Panels[now.ID]
	}
	if err := m.advice(p, start); err != nil {
		return nil, err
	}
	if err := m.trials(p); err != nil {
		return nil, err
	}
	for _, work := range now.Steps {
		p.Steps = append(p.Steps, Step{StepWork: work, Why: m.leftOutBecause(now.ID, work)})
	}
	p.marks(start, m.after(now.ID))
	m.changes(p, start, seen)
	m.film(p, now)
	return p, nil
}

// before is the panel as it stood before the first step was carried over it, with corrections applied.
func (m *maker) before(id string) *history.Panel {
	until := len(m.events)
	for i, e := range m.events {
		if work, ok := e.Body.(*history.Progress); ok && work.Panel == id && work.State != history.LeftOut {
			until = i
			break
		}
	}
	if p := history.Replay(slices.Clone(m.events[:until])).Panel(id); p != nil {
		return p
	}
	return &history.Panel{ID: id}
}

// after are the readings after work on a panel, over all its inspections.
func (m *maker) after(id string) (out []*history.Readings) {
	for _, e := range m.events {
		if r, ok := e.Body.(*history.Readings); ok && r.Panel == id && r.When == history.After {
			out = append(out, r)
		}
	}
	return out
}

// settled is the event that the readings before the work were last settled by: advice from before it rests on others.
func (m *maker) settled(start *history.Panel) (at int64) {
	for _, e := range m.events {
		counts := e.Sequence == start.FoundAt
		for _, r := range start.Before {
			counts = counts || e.Sequence == r.Sequence
		}
		if counts {
			at = max(at, e.Sequence, e.CorrectedBy)
		}
	}
	return at
}

// advice reads the latest advice from before the work: what was worked by.
func (m *maker) advice(p *Panel, start *history.Panel) error {
	settled := m.settled(start)
	for i := range slices.Backward(m.events) {
		e := &m.events[i]
		body, ok := e.Body.(*history.Decision)
		if !ok || body.Trial != 0 || e.Sequence < settled || m.worked(start.ID, e.Sequence) {
			continue
		}
		at := slices.IndexFunc(body.Panels, func(d history.PanelDecided) bool { return d.Panel == start.ID })
		if at < 0 {
			continue
		}
		said, err := m.given.Documents.Advice(e.Document, start.ID)
		if err != nil || said == nil {
			return err
		}
		p.Advice, p.Advised = said, body.Panels[at].Ladder
		m.warn(start.ID, said.Cautions)
		return nil
	}
	return nil
}

// worked reports whether a step was carried over a panel before an event.
func (m *maker) worked(id string, before int64) bool {
	return slices.ContainsFunc(m.events, func(e history.Event) bool {
		work, ok := e.Body.(*history.Progress)
		return ok && e.Sequence < before && work.Panel == id && work.State != history.LeftOut
	})
}

// trials reads every test spot of the panel and the latest verdict on each.
func (m *maker) trials(p *Panel) error {
	for _, e := range m.events {
		body, ok := e.Body.(*history.Trial)
		if !ok || body.Panel != p.Found.ID {
			continue
		}
		made := Trial{TrialMade: history.TrialMade{Sequence: e.Sequence, Trial: body, Document: e.Document}}
		for _, later := range slices.Backward(m.events) {
			d, ok := later.Body.(*history.Decision)
			if !ok || d.Trial != e.Sequence || len(d.Panels) == 0 || later.Sequence < e.CorrectedBy {
				continue
			}
			said, err := m.given.Documents.Verdict(later.Document)
			if err != nil {
				return err
			}
			made.Verdict, made.Because = &d.Panels[0], said.Because
			m.warn(p.Found.ID, said.Cautions)
			break
		}
		p.Trials = append(p.Trials, made)
	}
	return nil
}

// leftOutBecause is why a step was left out; "" if it was not.
func (m *maker) leftOutBecause(panel string, work history.StepWork) string {
	if work.State != history.LeftOut {
		return ""
	}
	for _, e := range slices.Backward(m.events) {
		if p, ok := e.Body.(*history.Progress); ok && p.Panel == panel && p.Step == work.Step && p.State == history.LeftOut {
			return p.Note
		}
	}
	return ""
}

// warn keeps cautions, each once, with the panels it is about.
func (m *maker) warn(panel string, cautions []Caution) {
	for _, c := range cautions {
		if len(c.Panels) == 0 {
			c.Panels = []string{panel}
		}
		at := slices.IndexFunc(m.cautions, func(o Caution) bool { return o.Topic == c.Topic && o.Do == c.Do })
		if at < 0 {
			c.Panels = slices.Clone(c.Panels)
			m.cautions = append(m.cautions, c)
			continue
		}
		for _, id := range c.Panels {
			if !slices.Contains(m.cautions[at].Panels, id) {
				m.cautions[at].Panels = append(m.cautions[at].Panels, id)
			}
		}
	}
}

// marks puts what was found beside what is left of it, as last looked at.
func (p *Panel) marks(start *history.Panel, after []*history.Readings) {
	found := slices.Clone(start.Found.Defects)
	for _, r := range start.Before {
		for _, d := range r.Left {
			if at := slices.IndexFunc(found, func(o history.Defect) bool { return o.Kind == d.Kind }); at >= 0 {
				found[at] = d
			} else {
				found = append(found, d)
			}
		}
	}
	for _, d := range found {
		p.Marks = append(p.Marks, Mark{Kind: d.Kind, Before: d.Severity, Note: p.Seen.Notes[d.Kind]})
	}
	for _, r := range after {
		for _, d := range r.Left {
			at := slices.IndexFunc(p.Marks, func(m Mark) bool { return m.Kind == d.Kind })
			if at < 0 {
				at = len(p.Marks)
				p.Marks = append(p.Marks, Mark{Kind: d.Kind})
			}
			p.Marks[at].Left = d.Severity
		}
	}
}
