package history

import (
	"context"
	"slices"
	"time"
)

// Listener is another system that is told what happens to jobs.
type Listener struct {
	ID string
	// Revision counts its changes, from 1 when it is added.
	Revision int64
	URL      string
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
	// AddListener stores a new listener with its revision, or gives an [*ExistsError].
	AddListener(ctx context.Context, l Listener) error
	// ChangeListener stores a listener over the one of its id at the revision expected, or gives a [*NotFoundError] or a
	// [*ConflictError].
	ChangeListener(ctx context.Context, l Listener, expected int64) error
	// RemoveListener removes a listener at the revision expected, 0 for any, and what it is still to be told, or gives a
	// [*NotFoundError] or a [*ConflictError].
	RemoveListener(ctx context.Context, id string, expected int64) error
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
	// Owed gives up to limit tellings of a listener that come after a place, by job and sequence. The zero key is before all.
	Owed(ctx context.Context, listener string, after TellingKey, limit int) ([]Telling, error)
}

// TellingKey is the place of a telling in the list of its listener.
type TellingKey struct {
	Job      string `json:"job"`
	Sequence int64  `json:"sequence"`
}

// toldKinds are the kinds of event that listeners are told of. The triggers of the stores name the same.
var toldKinds = []Kind{KindBooked, KindDetails, KindPlan, KindFinished, KindHandedOver, KindCancelled}

// ToldKinds are the kinds of event that listeners are told of.
func ToldKinds() []Kind { return slices.Clone(toldKinds) }
