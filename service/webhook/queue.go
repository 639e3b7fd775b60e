package webhook

import (
	"context"
	"time"
)

// Endpoint is somebody who wants to be told.
type Endpoint struct {
	ID      string
	URL     string
	Secrets []Secret // the newest first; more than one while a receiver changes over
	// AllowPrivate lets events go to a private or local address.
	AllowPrivate bool
}

// Delivery is one event on its way to one endpoint.
type Delivery struct {
	// ID is the webhook-id, the same at every try: by it a receiver knows what it has already.
	ID       string
	Endpoint Endpoint
	Body     []byte // the structured event
	// Tries is how often it was sent without success.
	Tries int
}

// Queue keeps what is still to be sent, across restarts. Of each job and endpoint only the oldest delivery is due, so that
// events arrive in order.
type Queue interface {
	// Due are deliveries whose time has come, at most limit, each lent to the caller until lease: another caller does not get
	// them before.
	Due(ctx context.Context, now, lease time.Time, limit int) ([]Delivery, error)
	// Delivered takes a delivery off the queue.
	Delivered(ctx context.Context, id string, now time.Time) error
	// Postpone counts a try that failed and sets when to try again.
	Postpone(ctx context.Context, id string, next time.Time, why string) error
	// Bury gives a delivery up. It stays to be looked at and sent again by hand, and holds up none behind it.
	Bury(ctx context.Context, id string, why string) error
	// Disable stops sending to an endpoint, which asked for it.
	Disable(ctx context.Context, endpoint, why string) error
}
