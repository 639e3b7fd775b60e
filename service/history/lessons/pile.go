package lessons

import "github.com/glossladder/glossladder/service/history/learned"

// piles are records by step.
type piles map[string]*pile

func (ps piles) of(step string) *pile {
	p := ps[step]
	if p == nil {
		p = &pile{step: step, byClass: map[Class]*heap{}}
		ps[step] = p
	}
	return p
}

// pile is the records of one step.
type pile struct {
	step    string
	byClass map[Class]*heap
	classes []Class // in the order of first sight
}

func (p *pile) of(c Class) *heap {
	h := p.byClass[c]
	if h == nil {
		h = &heap{gain: map[int][]float64{}}
		p.byClass[c] = h
		p.classes = append(p.classes, c)
	}
	return h
}

// heap is the records of one class.
type heap struct {
	jobs                  int
	lastJob               string // jobs come one after another
	tally                 learned.Tally
	gain                  map[int][]float64
	removal, trials, work []float64
}

func (h *heap) add(o *Outcome) {
	if h.jobs == 0 || h.lastJob != o.Job {
		h.jobs, h.lastJob = h.jobs+1, o.Job
	}
	if o.Ending != Untold {
		h.tally.Tried++
		if o.Ending == Accepted {
			h.tally.Succeeded++
		}
	}
	if o.GainGU != nil {
		h.gain[o.Angle] = append(h.gain[o.Angle], *o.GainGU)
	}
	h.removal = append(h.removal, o.RemovalUm...)
	h.trials = append(h.trials, o.TrialMinutes...)
	if o.WorkMinutes != nil {
		h.work = append(h.work, *o.WorkMinutes)
	}
}
