package history

import (
	"context"
	"slices"
	"time"
)

// Listener is another system that is told what happens to jobs.
type Listener struct {
	ID  string
	URL string
	// Secrets sign what it is told, the newest first. Whoever can read the store can read them.
	Secrets []string
	// AllowPrivate lets it stand at a private or local address.
	AllowPrivate bool
	CreatedAt    time.Time
	// Stopped says why it is told nothing for now; what happens meanwhile is owed to it. Empty: it is told.
	Stopped string
}

// Telling is one event that one listener is still to be told.
type Telling struct {
	Listener Listener
	Job      string
	Sequence int64
	Kind     Kind
	// Tries is how often it was tried in vain.
	Tries int
	// DueAt is when to try next.
	DueAt time.Time
	// GivenUp is true once it is tried no more. It stays until it is told again by hand or its listener goes.
	GivenUp bool
	// Why says what went wrong at the last try. Empty: nothing yet.
	Why string
}

// Outbox keeps what listeners are still to be told. An event that is stored is owed to every listener of that moment, in the
// same transaction: none is forgotten, and none is told that was not stored.
type Outbox interface {
	// AddListener stores a new listener, or gives an [*ExistsError].
	AddListener(ctx context.Context, l Listener) error
	// ChangeListener stores a listener over the one of its id, or gives a [*NotFoundError].
	ChangeListener(ctx context.Context, l Listener) error
	// RemoveListener removes a listener and what it is still to be told, or gives a [*NotFoundError].
	RemoveListener(ctx context.Context, id string) error
	// Listeners gives them all, by id. A shop has a handful.
	Listeners(ctx context.Context) ([]Listener, error)

	// Due lends up to limit tellings whose time has come until lease: nobody else gets them before. Of a listener and a job
	// only the first that waits is due, so that events are told in order.
	Due(ctx context.Context, now, lease time.Time, limit int) ([]Telling, error)
	// Told takes a telling off.
	Told(ctx context.Context, t Telling) error
	// TellLater counts a try in vain and sets when to try next.
	TellLater(ctx context.Context, t Telling, next time.Time, why string) error
	// GiveUp tries a telling no more. It holds up none behind it.
	GiveUp(ctx context.Context, t Telling, why string) error
	// TellAgain makes what was given up due now, for one listener, and says how many.
	TellAgain(ctx context.Context, listener string, now time.Time) (int64, error)
	// Owed gives up to limit tellings of a listener, by job and sequence.
	Owed(ctx context.Context, listener string, limit int) ([]Telling, error)
}

// toldKinds are the kinds of event that listeners are told of. The triggers of the stores name the same.
var toldKinds = []Kind{KindBooked, KindDetails, KindPlan, KindFinished, KindHandedOver, KindCancelled}

// ToldKinds are the kinds of event that listeners are told of.
func ToldKinds() []Kind { return slices.Clone(toldKinds) }
