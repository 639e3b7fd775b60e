package hindsight

import (
	"context"
	"iter"
	"sync"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
)

// Options are how a record is asked again. The zero value is ready.
type Options struct {
	// Kept gives the set of a hash that made a decision; false when it is not kept. It is asked once for each set. Nil: none is.
	Kept func(hash string) (*rules.Set, bool)
	// Progress is told now and then how many decisions are done. It is called by one goroutine at a time. Nil: nobody is told.
	Progress func(decisions int)
	// Workers is how many goroutines ask. Zero: two.
	Workers int
}

// Replay asks a set what every decision of a scan was asked, with the facts as they were seen. The scan gives the events of one
// job after another, of the kinds that [lessons.Kinds] names at least. The same record and set give the same report, however many
// workers there are. The error is that of the scan or of the context.
func Replay(ctx context.Context, scan iter.Seq2[history.Event, error], set *rules.Set, opts Options) (*Report, error) {
	pool := newPool(set, opts)
	err := pool.feed(ctx, scan)
	report := pool.end()
	if err != nil {
		return nil, err
	}
	report.RuleSet = set.Hash()
	return report, nil
}

// pool is workers and what they are given.
type pool struct {
	jobs    chan [][]history.Event
	workers []*worker
	wait    sync.WaitGroup
	sets    *keptSets
}

// batch is how many jobs are handed over at once.
const batch = 64

func newPool(set *rules.Set, opts Options) *pool {
	n := opts.Workers
	if n <= 0 {
		n = 2
	}
	p := &pool{jobs: make(chan [][]history.Event, 2*n), sets: &keptSets{kept: opts.Kept}}
	told := &progress{tell: opts.Progress}
	for range n {
		w := newWorker(set, p.sets)
		p.workers = append(p.workers, w)
		p.wait.Add(1)
		go func() {
			defer p.wait.Done()
			for jobs := range p.jobs {
				before := w.report.Decisions
				for _, events := range jobs {
					w.job(events)
				}
				told.add(w.report.Decisions - before)
			}
		}()
	}
	return p
}

// feed hands the jobs of a scan over.
func (p *pool) feed(ctx context.Context, scan iter.Seq2[history.Event, error]) error {
	defer close(p.jobs)
	var jobs [][]history.Event
	var events []history.Event
	hand := func() error {
		select {
		case p.jobs <- jobs:
			jobs = nil
			return nil
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	for e, err := range scan {
		if err != nil {
			return err
		}
		if len(events) > 0 && events[0].Job != e.Job {
			if jobs = append(jobs, events); len(jobs) == batch {
				if err := hand(); err != nil {
					return err
				}
			}
			events = make([]history.Event, 0, len(events))
		}
		events = append(events, e)
	}
	if len(events) > 0 {
		jobs = append(jobs, events)
	}
	if len(jobs) > 0 {
		return hand()
	}
	return nil
}

func (p *pool) end() *Report {
	p.wait.Wait()
	first := p.workers[0]
	for _, w := range p.workers[1:] {
		first.merge(w)
	}
	return first.finish(p.sets)
}

type progress struct {
	mu   sync.Mutex
	done int
	tell func(int)
}

func (p *progress) add(n int) {
	if p.tell == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.done += n
	p.tell(p.done)
}

// keptSets are the sets that made decisions, each asked for once.
type keptSets struct {
	mu   sync.Mutex
	kept func(string) (*rules.Set, bool)
	sets map[string]*rules.Set
}

func (k *keptSets) get(hash string) *rules.Set {
	k.mu.Lock()
	defer k.mu.Unlock()
	set, asked := k.sets[hash]
	if !asked {
		if k.sets == nil {
			k.sets = map[string]*rules.Set{}
		}
		if k.kept != nil {
			set, _ = k.kept(hash)
		}
		k.sets[hash] = set
	}
	return set
}
