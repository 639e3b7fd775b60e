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
	pace  Pace
	wire  wire
	wake  chan struct{}
	// away is true while the queue cannot be read, which is told once.
	away bool
}

// NewDispatcher prepares a dispatcher for a queue, at the usual pace.
func NewDispatcher(queue Queue, log *slog.Logger) *Dispatcher { return NewPaced(queue, log, Pace{}) }

// NewPaced prepares a dispatcher with a pace of its own.
func NewPaced(queue Queue, log *slog.Logger, pace Pace) *Dispatcher {
	pace = pace.settled()
	return &Dispatcher{queue: queue, log: log, pace: pace, wire: newWire(pace.Timeout), wake: make(chan struct{}, 1)}
}

// How the queue is looked at.
const (
	lookEvery = time.Second // or as long as the shortest wait
	atOnce    = 16
	// settleTime is how long the queue may take to be told what came of a try that the end of the service cut short.
	settleTime = 2 * time.Second
)

// Wake has the queue looked at now instead of within a second.
func (d *Dispatcher) Wake() {
	select {
	case d.wake <- struct{}{}:
	default: // it is awake already
	}
}

// Run sends until ctx ends, and returns when no try is under way any more. Tries under way are cut short then; they stay in the
// queue and are sent again, which a receiver knows by their id. A receiver that stalls holds up nobody else.
func (d *Dispatcher) Run(ctx context.Context) {
	tick := time.NewTicker(d.pace.look())
	defer tick.Stop()
	var tries sync.WaitGroup
	defer tries.Wait()
	slots := make(chan struct{}, atOnce)
	for {
		free := atOnce - len(slots)
		due := d.due(ctx, free)
		for _, delivery := range due {
			slots <- struct{}{}
			tries.Go(func() {
				d.try(ctx, delivery)
				<-slots
				d.Wake() // the next of the same job may be due now
			})
		}
		if len(due) == free && free > 0 && ctx.Err() == nil {
			continue // there may be more
		}
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		case <-d.wake:
		}
	}
}

// Once sends what is due now, waits for the answers, and returns how many tries that took.
func (d *Dispatcher) Once(ctx context.Context) int {
	due := d.due(ctx, atOnce)
	var tries sync.WaitGroup
	for _, delivery := range due {
		tries.Go(func() { d.try(ctx, delivery) })
	}
	tries.Wait()
	return len(due)
}

// due lends what is due, and tells once when that cannot be done, and once when it can again.
func (d *Dispatcher) due(ctx context.Context, most int) []Delivery {
	if most == 0 || ctx.Err() != nil {
		return nil
	}
	now := time.Now()
	due, err := d.queue.Due(ctx, now, now.Add(d.pace.lease()), most)
	switch {
	case ctx.Err() != nil:
		return nil
	case err != nil && !d.away:
		d.log.Error("webhook queue cannot be read; nothing is lost, and it is tried again", slog.Any("error", err))
	case err == nil && d.away:
		d.log.Info("webhook queue can be read again")
	}
	d.away = err != nil
	return due
}

func (d *Dispatcher) try(ctx context.Context, delivery Delivery) {
	now := time.Now()
	out := d.wire.send(ctx, delivery, now)
	if ctx.Err() != nil && !out.delivered {
		d.putBack(ctx, delivery, now)
		return
	}
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), settleTime)
	defer cancel()
	err := d.settle(ctx, delivery, out, time.Now())
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

// putBack makes a delivery due at once whose try the end of the service cut short, so that the next service sends it at once and
// not when the lease has run out. If that cannot be done either, it runs out by itself.
func (d *Dispatcher) putBack(ctx context.Context, delivery Delivery, now time.Time) {
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), settleTime)
	defer cancel()
	if err := d.queue.Postpone(ctx, delivery.ID, now, "the service was stopped while it was sent"); err != nil {
		d.log.Warn("webhook put back later", slog.String("delivery", delivery.ID), slog.Any("error", err))
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
	wait, again := d.pace.after(delivery.Tries+1, rand.Float64())
	if !again {
		return d.queue.Bury(ctx, delivery.ID, out.why)
	}
	return d.queue.Postpone(ctx, delivery.ID, now.Add(max(wait, out.wait)), out.why)
}
