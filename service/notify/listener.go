package notify

import (
	"context"
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

// Change changes a listener and gives it as it then stands. Errors are [*history.NotFoundError], those of change and of the store.
// Of two changes of one listener at the same moment the later wins as a whole.
func Change(ctx context.Context, record history.Outbox, id string, change func(*history.Listener) error) (history.Listener, error) {
	l, err := Find(ctx, record, id)
	if err != nil {
		return l, err
	}
	if err := change(&l); err != nil {
		return l, err
	}
	return l, record.ChangeListener(ctx, l)
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
