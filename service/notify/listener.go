package notify

import (
	"context"
	"errors"
	"slices"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/webhook"
)

// Find gives a listener, or a [*history.NotFoundError].
func Find(ctx context.Context, record history.Outbox, id string) (history.Listener, error) {
	all, err := record.Listeners(ctx)
	if err != nil {
		return history.Listener{}, err
	}
	for _, l := range all {
		if l.ID == id {
			return l, nil
		}
	}
	return history.Listener{}, &history.NotFoundError{What: "webhook", ID: id}
}

// changeTries is how often a change of whatever revision is tried again when somebody else was quicker.
const changeTries = 20

// Change changes a listener at the revision expected, 0 for whatever it is, and gives it as it then stands. No change is lost: of two
// at the same moment the later is made of what the earlier left, or refused where it expected something else. Change may be called
// more than once. Errors are [*history.NotFoundError], [*history.ConflictError], those of change and of the store.
func Change(ctx context.Context, record history.Outbox, id string, expected int64, change func(*history.Listener) error) (l history.Listener, err error) {
	for range changeTries {
		if l, err = Find(ctx, record, id); err != nil {
			return l, err
		}
		was := l.Revision
		if expected != 0 && expected != was {
			return l, &history.ConflictError{What: "webhook", ID: id, Expected: expected, Have: was}
		}
		if err := change(&l); err != nil {
			return l, err
		}
		l.Revision = was + 1
		err = record.ChangeListener(ctx, l, was)
		if _, late := errors.AsType[*history.ConflictError](err); !late || expected != 0 {
			return l, err
		}
	}
	return l, err
}

// mostSecrets is how many secrets sign at the same time: the newest and the one before it.
const mostSecrets = 2

// Rotate gives a listener a new secret, the one before staying valid beside it.
func Rotate(l *history.Listener) webhook.Secret {
	secret := webhook.NewSecret()
	l.Secrets = slices.Insert(slices.Clone(l.Secrets), 0, string(secret))
	l.Secrets = l.Secrets[:min(len(l.Secrets), mostSecrets)]
	return secret
}

// Retire takes all secrets of a listener but the newest away.
func Retire(l *history.Listener) { l.Secrets = l.Secrets[:min(len(l.Secrets), 1)] }
