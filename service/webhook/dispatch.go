package webhook

import (
	"context"
	"log/slog"
	"math/rand/v2"
	"sync"
	"time"
)

// Dispatcher sends what is due until it is told to stop.
type Dispatcher struct {
	queue Queue
	log   *slog.Logger
	wire  wire
	wake  chan struct{}
}

// NewDispatcher prepares a dispatcher for a queue.
func NewDispatcher(queue Queue, log *slog.Logger) *Dispatcher {
	return &Dispatcher{queue: queue, log: log, wire: newWire(), wake: make(chan struct{}, 1)}
}

// How the queue is looked at.
const (
	lookEvery = time.Second
	atOnce    = 16
	// lease is longer than a try can take; a delivery lent by a process that died comes back after it.
	lease = 2 * timeout
)

// Wake has the queue looked at now instead of within a second.
func (d *Dispatcher) Wake() {
	select {
	case d.wake <- struct{}{}:
	default: // it is awake already
	}
}

// Run sends until ctx ends. Tries under way are given up then; they stay in the queue and are sent again, which a receiver knows
// by their id.
func (d *Dispatcher) Run(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		for d.Once(ctx) > 0 && ctx.Err() == nil {
		}
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		case <-d.wake:
		}
	}
}

// Once sends everything that is due now and returns how many tries that took.
func (d *Dispatcher) Once(ctx context.Context) int {
	now := time.Now()
	due, err := d.queue.Due(ctx, now, now.Add(lease), atOnce)
	if err != nil {
		if ctx.Err() == nil {
			d.log.Error("webhook queue cannot be read", slog.Any("error", err))
		}
		return 0
	}
	var tries sync.WaitGroup
	for _, delivery := range due {
		tries.Go(func() { d.try(ctx, delivery) })
	}
	tries.Wait()
	return len(due)
}

func (d *Dispatcher) try(ctx context.Context, delivery Delivery) {
	now := time.Now()
	out := d.wire.send(ctx, delivery, now)
	if ctx.Err() != nil {
		return // the lease runs out by itself
	}
	err := d.settle(ctx, delivery, out, now)
	attrs := []any{slog.String("delivery", delivery.ID), slog.String("endpoint", delivery.Endpoint.ID)}
	switch {
	case err != nil:
		d.log.Error("webhook queue cannot be written; the event will be sent again", append(attrs, slog.Any("error", err))...)
	case out.delivered:
		d.log.Debug("webhook delivered", attrs...)
	default:
		d.log.Warn("webhook not delivered", append(attrs, slog.Int("try", delivery.Tries+1), slog.String("why", out.why))...)
	}
}

// settle tells the queue what came of a try.
func (d *Dispatcher) settle(ctx context.Context, delivery Delivery, out outcome, now time.Time) error {
	if out.delivered {
		return d.queue.Delivered(ctx, delivery.ID, now)
	}
	if out.gone {
		return d.queue.Disable(ctx, delivery.Endpoint.ID, out.why)
	}
	wait, again := waitAfter(delivery.Tries+1, rand.Float64())
	if !again {
		return d.queue.Bury(ctx, delivery.ID, out.why)
	}
	return d.queue.Postpone(ctx, delivery.ID, now.Add(max(wait, out.wait)), out.why)
}
