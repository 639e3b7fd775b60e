package webhook

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lanes is a queue of several endpoints, each with its own list.
type lanes map[string]*list

func (l lanes) Due(ctx context.Context, now, lease time.Time, limit int) (out []Delivery, err error) {
	for _, lane := range l {
		if len(out) < limit {
			due, _ := lane.Due(ctx, now, lease, 1)
			out = append(out, due...)
		}
	}
	return out, nil
}

// of is the lane of a delivery's id: "desk_1".
func (l lanes) of(id string) *list {
	endpoint, _, _ := strings.Cut(id, "_")
	return l[endpoint]
}

func (l lanes) Delivered(ctx context.Context, id string, now time.Time) error {
	return l.of(id).Delivered(ctx, id, now)
}

func (l lanes) Postpone(ctx context.Context, id string, next time.Time, why string) error {
	return l.of(id).Postpone(ctx, id, next, why)
}

func (l lanes) Bury(ctx context.Context, id, why string) error { return l.of(id).Bury(ctx, id, why) }

func (l lanes) Disable(ctx context.Context, endpoint, why string) error {
	return l[endpoint].Disable(ctx, endpoint, why)
}

func lane(t *testing.T, endpoint string, receiver http.Handler) *list {
	t.Helper()
	server := httptest.NewServer(receiver)
	t.Cleanup(server.Close)
	out := &list{}
	at := Endpoint{ID: endpoint, URL: server.URL, Secrets: []Secret{published}, AllowPrivate: true}
	for _, n := range []string{"1", "2", "3"} {
		out.items = append(out.items, Delivery{ID: endpoint + "_" + n, Endpoint: at, Body: []byte("{}")})
	}
	return out
}

// A receiver that stalls holds up nobody else, and the end of the service cuts it short: its event is put back and due at once.
func TestAStallHoldsUpNobodyElse(t *testing.T) {
	reached := make(chan struct{}, 1)
	stalled := http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body) // only then it is seen that the sender has gone
		reached <- struct{}{}
		<-r.Context().Done()
	})
	to := &receiver{answers: []func(http.ResponseWriter){status(http.StatusOK)}}
	queue := lanes{"slow": lane(t, "slow", stalled), "quick": lane(t, "quick", to)}
	d := NewPaced(queue, slog.New(slog.DiscardHandler), Pace{Timeout: time.Minute})
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan struct{})
	go func() { d.Run(ctx); close(ended) }()
	<-reached
	require.Eventually(t, func() bool {
		queue["quick"].mu.Lock()
		defer queue["quick"].mu.Unlock()
		return len(queue["quick"].items) == 0
	}, 10*time.Second, 5*time.Millisecond)
	stop()
	<-ended
	assert.Equal(t, []string{"the service was stopped while it was sent"}, queue["slow"].whys)
	assert.False(t, queue["slow"].next.After(time.Now()), "due at once")
	assert.Equal(t, "slow_1", queue["slow"].items[0].ID)
}

func TestAPaceThatCannotBe(t *testing.T) {
	require.NoError(t, Pace{}.Check())
	require.NoError(t, Pace{Timeout: longestTimeout, Waits: []time.Duration{time.Millisecond, longestWait}}.Check())
	for _, bad := range []Pace{
		{Timeout: -1}, {Timeout: longestTimeout + 1}, {Waits: []time.Duration{0}}, {Waits: []time.Duration{longestWait + 1}}, {Waits: make([]time.Duration, mostWaits+1)},
	} {
		assert.Error(t, bad.Check(), "%v", bad)
	}
}

// The queue is looked at as often as the shortest wait asks for, and never less than each second.
func TestHowOftenTheQueueIsLookedAt(t *testing.T) {
	assert.Equal(t, time.Second, Pace{}.settled().look())
	assert.Equal(t, 50*time.Millisecond, Pace{Waits: []time.Duration{time.Hour, 50 * time.Millisecond}}.settled().look())
	assert.Equal(t, 10*time.Millisecond, Pace{Waits: []time.Duration{1}}.settled().look())
}
