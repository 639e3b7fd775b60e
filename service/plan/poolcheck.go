package plan

import "fmt"

// Bounds that keep sums within what an int64 holds.
const (
	mostPart   = 1_000_000_000_000_000 // one cost of a pool
	mostPooled = 1000 * mostPart       // all costs together
	mostThings = 200
	mostWear   = 1_000_000 // sections of one use
)

func (p *Pool) check() error {
	if err := within("number of panels", len(p.Panels), 1, MostPanels); err != nil {
		return err
	}
	if p.Order != nil && len(p.Order) != len(p.Panels) {
		return fmt.Errorf("the order has %d panels of %d", len(p.Order), len(p.Panels))
	}
	if err := within("number of shared things", len(p.Things), 0, mostThings); err != nil {
		return err
	}
	if err := parts(part{"fixed cost", p.Fixed}, part{"rounding", p.Rounding}); err != nil {
		return err
	}
	for i := range p.Things {
		if err := p.checkThing(&p.Things[i]); err != nil {
			return fmt.Errorf("thing %d: %w", i+1, err)
		}
	}
	for i := range p.Panels {
		if err := p.checkPanel(&p.Panels[i]); err != nil {
			return fmt.Errorf("panel %d: %w", i+1, err)
		}
	}
	return nil
}

type part struct {
	field string
	value int64
}

func parts(all ...part) error {
	for _, each := range all {
		if err := within(each.field, int(each.value), 0, mostPart); err != nil {
			return err
		}
	}
	return nil
}

func (p *Pool) checkThing(t *Thing) error {
	if err := within("step", t.Step, 0, len(p.Things)-1); err != nil {
		return err
	}
	if err := within("number of kinds", len(t.Kinds), 1, MostPanels); err != nil {
		return err
	}
	for _, k := range t.Kinds {
		if err := parts(part{"cost of a piece", k.Each}); err != nil {
			return err
		}
		if err := within("cost less for the first", int(k.Off), 0, int(k.Each)); err != nil {
			return err
		}
		if !(k.Holds >= 1) {
			return fmt.Errorf("a piece holds %v sections, it has to hold one", k.Holds)
		}
	}
	return nil
}

func (p *Pool) checkPanel(panel *PoolPanel) error {
	if err := within("number of ways", len(panel.Ways), 1, MostChoices); err != nil {
		return err
	}
	for _, w := range panel.Ways {
		if len(w.Uses) > len(p.Things) {
			return fmt.Errorf("number of things is %d, but the pool shares only %d", len(w.Uses), len(p.Things))
		}
		if err := within("worth", w.Worth, 0, mostWorth); err != nil {
			return err
		}
		if err := parts(part{"film taken in nm", int64(w.TakesNm)}, part{"work", w.Micros}, part{"own cost", w.Own}); err != nil {
			return err
		}
		for _, u := range w.Uses {
			if err := within("thing", u.Thing, 0, len(p.Things)-1); err != nil {
				return err
			}
			if err := within("kind", u.Kind, 0, len(p.Things[u.Thing].Kinds)-1); err != nil {
				return err
			}
			if err := within("sections", u.Sections, 1, mostWear); err != nil {
				return err
			}
		}
	}
	return nil
}
