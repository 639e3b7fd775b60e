package notify

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/webhook"
)

// Record is where jobs, listeners and what they are owed are kept.
type Record interface {
	history.Outbox
	history.Jobs
}

// Queue is what the record owes, as a [webhook.Queue]. It may be used by several goroutines at once.
type Queue struct {
	// open gives the record, which may be away for a while.
	open   func(context.Context) (Record, error)
	source string

	mu   sync.Mutex
	lent map[string]history.Telling // by id, until it is settled
}

// NewQueue makes a queue. The source names whose events they are, as CloudEvents have it.
func NewQueue(open func(context.Context) (Record, error), source string) *Queue {
	return &Queue{open: open, source: source, lent: map[string]history.Telling{}}
}

// DeliveryID is the webhook-id of a telling. Its parts hold no underscore.
func DeliveryID(t *history.Telling) string {
	return fmt.Sprintf("%s_%s_%d", t.Listener.ID, t.Job, t.Sequence)
}

// Due lends deliveries whose time has come. One whose event cannot be read is given up, so that it holds up none behind it.
func (q *Queue) Due(ctx context.Context, now, lease time.Time, limit int) ([]webhook.Delivery, error) {
	record, err := q.open(ctx)
	if err != nil {
		return nil, err
	}
	due, err := record.Due(ctx, now, lease, limit)
	if err != nil {
		return nil, err
	}
	var out []webhook.Delivery
	for _, t := range due {
		text, err := body(ctx, record, q.source, t)
		if bad := unreadable(err); bad {
			err = record.GiveUp(ctx, t, err.Error())
			text = nil
		}
		if err != nil {
			return out, err // those lent already are sent; the rest comes back when the lease is over
		}
		if text == nil {
			continue
		}
		d := webhook.Delivery{ID: DeliveryID(&t), Endpoint: endpointOf(&t.Listener), Body: text, Tries: t.Tries}
		q.mu.Lock()
		q.lent[d.ID] = t
		q.mu.Unlock()
		out = append(out, d)
	}
	return out, nil
}

// unreadable reports a fault of the event itself, and not of the store.
func unreadable(err error) bool {
	_, damaged := errors.AsType[*history.UnreadableError](err)
	_, missing := errors.AsType[*history.NotFoundError](err)
	return damaged || missing
}

func endpointOf(l *history.Listener) webhook.Endpoint {
	out := webhook.Endpoint{ID: l.ID, URL: l.URL, AllowPrivate: l.AllowPrivate}
	for _, secret := range l.Secrets {
		out.Secrets = append(out.Secrets, webhook.Secret(secret))
	}
	return out
}

// Delivered takes a delivery off the queue.
func (q *Queue) Delivered(ctx context.Context, id string, _ time.Time) error {
	return q.settle(ctx, id, func(record Record, t history.Telling) error { return record.Told(ctx, t) })
}

// Postpone counts a try that failed and sets when to try again.
func (q *Queue) Postpone(ctx context.Context, id string, next time.Time, why string) error {
	return q.settle(ctx, id, func(record Record, t history.Telling) error { return record.TellLater(ctx, t, next, why) })
}

// Bury gives a delivery up.
func (q *Queue) Bury(ctx context.Context, id, why string) error {
	return q.settle(ctx, id, func(record Record, t history.Telling) error { return record.GiveUp(ctx, t, why) })
}

// settle does with a lent telling what came of it.
func (q *Queue) settle(ctx context.Context, id string, how func(Record, history.Telling) error) error {
	q.mu.Lock()
	t, lent := q.lent[id]
	delete(q.lent, id)
	q.mu.Unlock()
	if !lent {
		return fmt.Errorf("delivery %s was not lent", id)
	}
	record, err := q.open(ctx)
	if err != nil {
		return err
	}
	return how(record, t)
}

// Disable stops telling a listener, which asked for it. What it is owed stays owed.
func (q *Queue) Disable(ctx context.Context, endpoint, why string) error {
	record, err := q.open(ctx)
	if err != nil {
		return err
	}
	_, err = Change(ctx, record, endpoint, 0, func(l *history.Listener) error {
		l.Stopped = why
		return nil
	})
	if _, gone := errors.AsType[*history.NotFoundError](err); gone {
		return nil // it was removed meanwhile
	}
	return err
}
