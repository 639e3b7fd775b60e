package history

import (
	"context"
	"sync"
)

// turns lets those who record in one job go one after another, so that they do not lose to each other again and again. It is for
// speed only: two programs that share a store do not see each other's turns, and the store keeps them apart.
type turns struct {
	mu   sync.Mutex
	jobs map[string]*turn
}

type turn struct {
	taken chan struct{} // holds one
	users int
}

// take waits for the turn at a job and gives the way to end it.
func (t *turns) take(ctx context.Context, job string) (end func(), err error) {
	t.mu.Lock()
	if t.jobs == nil {
		t.jobs = map[string]*turn{}
	}
	mine := t.jobs[job]
	if mine == nil {
		mine = &turn{taken: make(chan struct{}, 1)}
		t.jobs[job] = mine
	}
	mine.users++
	t.mu.Unlock()

	leave := func() {
		t.mu.Lock()
		defer t.mu.Unlock()
		if mine.users--; mine.users == 0 {
			delete(t.jobs, job)
		}
	}
	select {
	case mine.taken <- struct{}{}:
		return func() { <-mine.taken; leave() }, nil
	case <-ctx.Done():
		leave()
		return nil, ctx.Err()
	}
}
