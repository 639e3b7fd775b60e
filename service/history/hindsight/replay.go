package hindsight

import (
	"context"
	"errors"
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

// Replay asks a set what every decision on record was asked, with the facts as they were seen. The scan gives the events of one job
// after another, as a store's Traces does. The same record and set give the same report, however many workers there are. The error
// is that of the scan or of the context, or a [*history.UnreadableError].
func Replay(ctx context.Context, scan iter.Seq2[history.Traced, error], set *rules.Set, opts Options) (*Report, error) {
	pool := newPool(set, opts)
	err := pool.feed(ctx, scan)
	report, broken := pool.end()
	if err != nil || broken != nil {
		return nil, errors.Join(err, broken)
	}
	report.RuleSet = set.Hash()
	return report, nil
}

// pool is workers and what they are given.
type pool struct {
	// some are whole jobs, one after another; spent is room for more.
	some, spent chan []history.Traced
	workers     []*worker
	wait        sync.WaitGroup
	sets        *keptSets
	failed      chan struct{}
	once        sync.Once
}

// batch is how many events are handed over at once, or as many as the last job has.
const batch = 256

func newPool(set *rules.Set, opts Options) *pool {
	n := opts.Workers
	if n <= 0 {
		n = 2
	}
	p := &pool{
		some: make(chan []history.Traced, 2*n), spent: make(chan []history.Traced, 4*n), failed: make(chan struct{}),
		sets: &keptSets{kept: opts.Kept},
	}
	told := &progress{tell: opts.Progress}
	for range n {
		w := newWorker(set, p.sets)
		p.workers = append(p.workers, w)
		p.wait.Go(func() { p.work(w, told) })
	}
	return p
}

// work asks about what is handed over until there is no more. After something that cannot be read the rest is let pass.
func (p *pool) work(w *worker, told *progress) {
	for some := range p.some {
		before := w.report.Decisions
		if w.err == nil {
			w.jobs(some)
		}
		if w.err != nil {
			p.once.Do(func() { close(p.failed) })
		}
		told.add(w.report.Decisions - before)
		clear(some)
		select {
		case p.spent <- some[:0]:
		default:
		}
	}
}

// feed hands the jobs of a scan over.
func (p *pool) feed(ctx context.Context, scan iter.Seq2[history.Traced, error]) error {
	defer close(p.some)
	some := make([]history.Traced, 0, 2*batch)
	for t, err := range scan {
		if err != nil {
			return err
		}
		if n := len(some); n >= batch && some[n-1].Job != t.Job {
			select {
			case p.some <- some:
			case <-p.failed:
				return nil // the worker tells why
			case <-ctx.Done():
				return ctx.Err()
			}
			some = p.room()
		}
		some = append(some, t)
	}
	if len(some) > 0 {
		p.some <- some
	}
	return nil
}

func (p *pool) room() []history.Traced {
	select {
	case room := <-p.spent:
		return room
	default:
		return make([]history.Traced, 0, 2*batch)
	}
}

func (p *pool) end() (*Report, error) {
	p.wait.Wait()
	first := p.workers[0]
	err := first.err
	for _, w := range p.workers[1:] {
		first.merge(w)
		err = errors.Join(err, w.err)
	}
	return first.finish(p.sets), err
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
