// Package serve runs one engine for another process: it loads tables and measures how long answers take, as it is told line
// by line. Each engine so has a heap of its own, and one that does not come to an end can be ended from outside.
//
// The Node engine speaks the same protocol.
package serve

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"
	"time"

	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

// Request is one line to the engine: a table to load, or a run over its points.
type Request struct {
	Load *Load `json:"load,omitempty"`
	Run  *Run  `json:"run,omitempty"`
}

// Load replaces the table.
type Load struct {
	Rules  []table.Rule  `json:"rules"`
	Points []table.Point `json:"points"`
}

// Run asks for all points in turn, over and over until Ns have passed, and at least once.
type Run struct {
	Way engine.Way `json:"way"`
	Ns  int64      `json:"ns"`
}

// Reply answers one request.
type Reply struct {
	Error string `json:"error,omitempty"`
	// Ns is how long the load or the run took.
	Ns int64 `json:"ns"`
	// Ways are those of the engine loaded.
	Ways []engine.Way `json:"ways,omitempty"`
	// Passes counts the times that all points were asked; Answers are those of the last.
	Passes  int   `json:"passes,omitempty"`
	Answers []int `json:"answers,omitempty"`
	// Version names what runs the engine, if it is not this program.
	Version string `json:"version,omitempty"`
}

// Serve answers requests until there are no more.
func Serve(in io.Reader, out io.Writer, make func([]table.Rule, []table.Point) (engine.Engine, error)) error {
	from, to := json.NewDecoder(in), json.NewEncoder(out)
	s := &server{make: make}
	for {
		var q Request
		if err := from.Decode(&q); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fmt.Errorf("read a request: %w", err)
		}
		reply, err := s.answer(q)
		if err != nil {
			reply = Reply{Error: err.Error()}
		}
		if err := to.Encode(reply); err != nil {
			return fmt.Errorf("write a reply: %w", err)
		}
	}
}

type server struct {
	make   func([]table.Rule, []table.Point) (engine.Engine, error)
	engine engine.Engine
	points int
}

func (s *server) answer(q Request) (Reply, error) {
	switch {
	case q.Load != nil:
		return s.load(q.Load)
	case q.Run != nil:
		return s.run(q.Run)
	}
	return Reply{}, errors.New("the request asks for nothing")
}

func (s *server) load(q *Load) (Reply, error) {
	began := time.Now()
	e, err := s.make(q.Rules, q.Points)
	if err != nil {
		return Reply{}, err
	}
	reply := Reply{Ns: time.Since(began).Nanoseconds()}
	s.engine, s.points = e, len(q.Points)
	for _, w := range engine.Ways() {
		if e[w] != nil {
			reply.Ways = append(reply.Ways, w)
		}
	}
	return reply, nil
}

// run starts with a collected heap, so that no run pays for what another left behind.
func (s *server) run(q *Run) (Reply, error) {
	ask := s.engine[q.Way]
	if ask == nil {
		return Reply{}, fmt.Errorf("the engine cannot be asked %s", q.Way)
	}
	answers := make([]int, s.points)
	reply := Reply{Answers: answers}
	runtime.GC()
	for began := time.Now(); reply.Passes == 0 || reply.Ns < q.Ns; reply.Passes++ {
		for i := range answers {
			got, err := ask(i)
			if err != nil {
				return Reply{}, fmt.Errorf("point %d: %w", i, err)
			}
			answers[i] = got
		}
		reply.Ns = time.Since(began).Nanoseconds()
	}
	return reply, nil
}
