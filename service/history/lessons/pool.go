package lessons

import (
	"github.com/glossladder/glossladder/service/history/learned"
)

// learn pools the records of one step.
func (p *pile) learn(expect func(Class) (Expectation, error)) ([]Lesson, error) {
	whole, err := expect(Class{Step: p.step})
	if err != nil {
		return nil, err
	}
	usual := make([]Expectation, len(p.classes))
	out := make([]Lesson, len(p.classes))
	for i, c := range p.classes {
		if usual[i], err = expect(c); err != nil {
			return nil, err
		}
		out[i] = Lesson{Class: c, Jobs: p.byClass[c].jobs, Gain: map[int]Estimate{}}
	}
	if err := p.successes(out, usual, whole.Odds); err != nil {
		return nil, err
	}
	for _, q := range p.quantities(whole) {
		estimates, err := p.pool(q, usual)
		if err != nil {
			return nil, err
		}
		for i := range estimates {
			q.put(&out[i], estimates[i])
		}
	}
	return out, nil
}

// quantity is one thing that is measured or timed, and where it stands.
type quantity struct {
	prior   learned.NormalPrior
	records func(*heap) []float64
	usual   func(*Expectation) float64
	put     func(*Lesson, Estimate)
}

func (p *pile) quantities(whole Expectation) []quantity {
	out := []quantity{
		{
			whole.RemovalUm, func(h *heap) []float64 { return h.removal }, func(e *Expectation) float64 { return e.RemovalUm.Mean },
			func(l *Lesson, e Estimate) { l.RemovalUm = e },
		},
		{
			whole.MinutesEach, func(h *heap) []float64 { return h.trials }, func(e *Expectation) float64 { return e.MinutesEach.Mean },
			func(l *Lesson, e Estimate) { l.TrialMinutes = e },
		},
		{
			// A section of a panel goes quicker than one on trial, and nobody states by how much: the record leads.
			flat(whole.MinutesEach), func(h *heap) []float64 { return h.work }, func(e *Expectation) float64 { return e.MinutesEach.Mean },
			func(l *Lesson, e Estimate) { l.WorkMinutes = e },
		},
	}
	for _, angle := range []int{20, 60, 85} {
		read := false
		for _, h := range p.byClass {
			read = read || len(h.gain[angle]) > 0
		}
		if read {
			out = append(out, quantity{
				whole.GainGU, func(h *heap) []float64 { return h.gain[angle] }, func(e *Expectation) float64 { return e.GainGU.Mean },
				func(l *Lesson, e Estimate) { l.Gain[angle] = e },
			})
		}
	}
	return out
}

// flat is a prior with next to no opinion of the shop's mean.
func flat(p learned.NormalPrior) learned.NormalPrior {
	const doubt = 100
	p.MeanSD *= doubt
	return p
}

// pool estimates one quantity in every class. Classes are pooled by what they lie above or below their expectation, so that
// those of which more is expected lend no more to the others than they should. One class more, without records, tells what the
// shop's others lead one to expect.
func (p *pile) pool(q quantity, usual []Expectation) ([]Estimate, error) {
	groups := make([][]float64, len(p.classes)+1)
	for i, c := range p.classes {
		for _, v := range q.records(p.byClass[c]) {
			groups[i] = append(groups[i], v-q.usual(&usual[i]))
		}
	}
	prior := q.prior
	prior.Mean = 0
	posteriors, err := learned.PoolNormal(groups, prior)
	if err != nil {
		return nil, err
	}
	empty := posteriors[len(p.classes)]
	var without [3]float64 // the same for every class without records
	without[0], without[1], without[2] = summary(empty, empty.SD/100)
	out := make([]Estimate, len(p.classes))
	for i := range out {
		expected := q.usual(&usual[i])
		e := &out[i]
		e.N, e.Usual, e.Shop = len(groups[i]), expected, expected+empty.Mean
		e.Mean, e.Low, e.High = without[0], without[1], without[2]
		if e.N > 0 {
			e.Mean, e.Low, e.High = summary(posteriors[i], posteriors[i].SD/100)
			own := expected + mean(groups[i])
			e.Own = &own
		}
		e.Mean, e.Low, e.High = e.Mean+expected, e.Low+expected, e.High+expected
		e.settle()
	}
	return out, nil
}

// successes estimates the chance of success in every class.
func (p *pile) successes(out []Lesson, usual []Expectation, prior learned.OddsPrior) error {
	n := len(p.classes)
	// Behind the classes stand the same again without their records.
	tallies, expected := make([]learned.Tally, 2*n), make([]float64, 2*n)
	for i, c := range p.classes {
		tallies[i] = p.byClass[c].tally
		expected[i], expected[n+i] = usual[i].Success, usual[i].Success
	}
	posteriors, err := learned.PoolOdds(tallies, expected, prior)
	if err != nil {
		return err
	}
	for i, t := range tallies[:n] {
		e := &out[i].Success
		e.N, e.Usual, e.Shop = t.Tried, usual[i].Success, posteriors[n+i].Mean
		const tenthOfAPercent = 0.001
		e.Mean, e.Low, e.High = summary(posteriors[i], tenthOfAPercent)
		if t.Tried > 0 {
			own := float64(t.Succeeded) / float64(t.Tried)
			e.Own = &own
		}
		e.settle()
	}
	return nil
}

// summary is the mean and the ends of the interval, to within a tolerance.
func summary(p learned.Posterior, within float64) (mean, low, high float64) {
	return p.Mean, quantile(p, (1-Confidence)/2, within), quantile(p, (1+Confidence)/2, within)
}

// quantile looks for a quantile no closer than somebody will read it: [learned.Posterior.Quantile] goes on to the last digit.
func quantile(p learned.Posterior, chance, within float64) float64 {
	if p.SD == 0 {
		return p.Mean
	}
	low, high := p.Mean-p.SD, p.Mean+p.SD
	for p.Below(low) > chance {
		low -= p.SD
	}
	for p.Below(high) < chance {
		high += p.SD
	}
	for high-low > within {
		middle := (low + high) / 2
		if p.Below(middle) < chance {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

func mean(values []float64) float64 {
	var sum float64
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
