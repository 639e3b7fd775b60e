// Package bench measures engines that run in processes of their own: in turn, several times over, with every answer held
// against the oracle.
//
// It knows no engine, and writes nothing: its caller gets figures.
package bench

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/serve"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

// Peer is an engine to measure.
type Peer struct {
	Name      string
	How       string
	Reference bool
	Command   []string // starts it; it then answers package serve's requests
}

// Plan says how much is measured.
type Plan struct {
	Points int           // of each table
	Rounds int           // times that each engine is measured
	Slice  time.Duration // of one measurement; one pass over all points at least
	Limit  time.Duration // for a load and for one pass; an engine that needs longer is left out
	// Patience is for all measurements of one engine in one way; a slow engine is measured in the first rounds only, but once.
	Patience time.Duration
}

// Result is what one engine did with one table.
type Result struct {
	Peer string
	// Failure says why there are no figures, or is empty.
	Failure string
	Load    time.Duration
	// PerAsk has for each way the time of one answer, round by round.
	PerAsk  map[engine.Way][]time.Duration
	Version string
}

// Median is the time of one answer in the middle round; ok is false if there is none.
func (r Result) Median(w engine.Way) (d time.Duration, ok bool) {
	if len(r.PerAsk[w]) == 0 {
		return 0, false
	}
	return middle(r.PerAsk[w]), true
}

// Ratio is how many times as long r takes, asked w, as base does, asked its own way; round against the same round, in the
// middle. The base must have been measured in every round that r was.
func (r Result) Ratio(w engine.Way, base Result, asked engine.Way) (times float64, ok bool) {
	a, b := r.PerAsk[w], base.PerAsk[asked]
	if len(a) == 0 || len(a) > len(b) {
		return 0, false
	}
	ratios := make([]float64, len(a))
	for i := range a {
		ratios[i] = float64(a[i]) / float64(b[i])
	}
	return middle(ratios), true
}

// middle is the middle value, the mean of two for an even number.
func middle[T ~int64 | ~float64](values []T) T {
	v := slices.Sorted(slices.Values(values))
	n := len(v)
	return (v[(n-1)/2] + v[n/2]) / 2
}

// Table measures all peers with one table. An engine that cannot load it or takes too long has a failure in its result; a
// wrong answer is an error.
func Table(ctx context.Context, peers []Peer, plan Plan, shape table.Shape, size int) ([]Result, error) {
	rules, at := table.Generate(shape, size, plan.Points)
	want := make([]int, len(at))
	for i, p := range at {
		want[i] = table.Decide(rules, p)
	}
	stands := make([]*stand, 0, len(peers))
	defer func() {
		for _, s := range stands {
			s.stop()
		}
	}()
	for _, p := range peers {
		s := &stand{Result: Result{Peer: p.Name, PerAsk: map[engine.Way][]time.Duration{}}, plan: plan, want: want}
		stands = append(stands, s)
		if err := s.load(ctx, p.Command, &serve.Load{Rules: rules, Points: at}); err != nil {
			return nil, err
		}
	}
	for round := range plan.Rounds {
		for i := range stands { // another one begins each round
			if err := stands[(i+round)%len(stands)].measure(round); err != nil {
				return nil, err
			}
		}
	}
	results := make([]Result, len(stands))
	for i, s := range stands {
		results[i] = s.Result
	}
	return results, nil
}

// stand is where one engine is measured.
type stand struct {
	Result
	process *process
	plan    Plan
	want    []int
	ways    []wayRounds
}

// wayRounds is a way to ask and the number of rounds in which there is time for it.
type wayRounds struct {
	way    engine.Way
	rounds int
}

// load loads the table and asks for every point in every way once, which warms the engine.
func (s *stand) load(ctx context.Context, command []string, l *serve.Load) error {
	var err error
	if s.process, err = start(ctx, command); err != nil {
		return err
	}
	reply, err := s.process.call(serve.Request{Load: l}, s.plan.Limit)
	if err != nil {
		s.fail(fmt.Errorf("load: %w", err))
		return ctx.Err()
	}
	s.Load, s.Version = time.Duration(reply.Ns), reply.Version
	for _, w := range reply.Ways {
		per, err := s.pass(w, 0)
		if errors.Is(err, errWrong) {
			return err
		}
		if err != nil {
			s.fail(err)
			return ctx.Err()
		}
		s.ways = append(s.ways, wayRounds{w, max(1, int(s.plan.Patience/max(1, per*time.Duration(len(s.want)))))})
	}
	return nil
}

func (s *stand) measure(round int) error {
	for _, w := range s.ways {
		if round >= w.rounds {
			continue
		}
		per, err := s.pass(w.way, s.plan.Slice)
		if err != nil {
			return err
		}
		s.PerAsk[w.way] = append(s.PerAsk[w.way], per)
	}
	return nil
}

var errWrong = errors.New("wrong answer")

// pass asks for all points for some time and holds the answers against the oracle's.
func (s *stand) pass(w engine.Way, during time.Duration) (per time.Duration, err error) {
	reply, err := s.process.call(serve.Request{Run: &serve.Run{Way: w, Ns: during.Nanoseconds()}}, s.plan.Limit)
	if err != nil {
		return 0, fmt.Errorf("%s, %s: %w", s.Peer, w, err)
	}
	if len(reply.Answers) != len(s.want) || reply.Passes == 0 {
		return 0, fmt.Errorf("%s, %s: %w: %d answers for %d points", s.Peer, w, errWrong, len(reply.Answers), len(s.want))
	}
	for i, got := range reply.Answers {
		if got != s.want[i] {
			return 0, fmt.Errorf("%s, %s: %w: rule %d for point %d, where it is rule %d", s.Peer, w, errWrong, got, i, s.want[i])
		}
	}
	return time.Duration(reply.Ns / int64(reply.Passes*len(s.want))), nil
}

// fail ends an engine that is of no use, and frees its memory.
func (s *stand) fail(err error) {
	s.Failure = err.Error()
	s.ways = nil
	s.stop()
}

func (s *stand) stop() {
	if s.process != nil {
		s.process.stop()
	}
}
