package app

import (
	"context"
	"log/slog"
	"sync"

	"github.com/glossladder/glossladder/service/notify"
	"github.com/glossladder/glossladder/service/webhook"
)

// usualSource is whose events they are unless Options say.
const usualSource = "/glossladder"

// teller tells webhooks what happens to jobs, while the service runs.
type teller struct {
	dispatcher *webhook.Dispatcher

	mu     sync.Mutex
	stop   context.CancelFunc // nil: it does not run
	ended  chan struct{}
	closed bool
}

func newTeller(opts Options, r *record, log *slog.Logger) *teller {
	source := opts.EventSource
	if source == "" {
		source = usualSource
	}
	queue := notify.NewQueue(func(ctx context.Context) (notify.Record, error) {
		store, _, err := r.Open(ctx)
		return store, err
	}, source)
	return &teller{dispatcher: webhook.NewPaced(queue, log, opts.pace())}
}

// wake has what is due looked at now.
func (t *teller) wake() { t.dispatcher.Wake() }

// start tells until close.
func (t *teller) start() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed || t.stop != nil {
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	t.stop, t.ended = cancel, make(chan struct{})
	go func() {
		defer close(t.ended)
		t.dispatcher.Run(ctx)
	}()
}

// close ends the telling; what was under way is put back. It has to come before the end of the record.
func (t *teller) close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.closed = true
	if t.stop != nil {
		t.stop()
		<-t.ended
	}
}
