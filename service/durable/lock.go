package durable

import (
	"context"
	"fmt"
	"time"
)

// lockLook is how often a lock that another process holds is asked for again.
const lockLook = 10 * time.Millisecond

// Lock keeps other processes, and other callers in this one, out of a folder until unlock is called or the process ends. It
// waits for whoever holds it until ctx ends.
func Lock(ctx context.Context, dir string) (unlock func() error, err error) {
	for {
		unlock, err = tryLock(dir)
		if err != nil || unlock != nil {
			return unlock, err
		}
		select {
		case <-ctx.Done():
			return nil, fmt.Errorf("wait for whoever is editing %s: %w", dir, ctx.Err())
		case <-time.After(lockLook):
		}
	}
}
