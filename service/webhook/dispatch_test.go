package webhook

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	standardwebhooks "github.com/standard-webhooks/standard-webhooks/libraries/go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// list is a queue for one endpoint and one job, kept in memory.
type list struct {
	mu       sync.Mutex
	items    []Delivery
	next     time.Time
	whys     []string
	buried   []string
	disabled string
}

func (l *list) Due(_ context.Context, now, lease time.Time, _ int) ([]Delivery, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.items) == 0 || now.Before(l.next) || l.disabled != "" {
		return nil, nil
	}
	l.next = lease
	return l.items[:1:1], nil
}

func (l *list) Delivered(context.Context, string, time.Time) error { return l.shift() }

func (l *list) Postpone(_ context.Context, _ string, next time.Time, why string) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.items[0].Tries++
	l.next, l.whys = next, append(l.whys, why)
	return nil
}

func (l *list) Bury(_ context.Context, id, _ string) error {
	l.buried = append(l.buried, id)
	return l.shift()
}

func (l *list) Disable(_ context.Context, endpoint, _ string) error {
	l.disabled = endpoint
	return nil
}

func (l *list) shift() error {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.items, l.next = l.items[1:], time.Time{}
	return nil
}

// receiver answers with one status after another, the last one for ever, and keeps what it was sent.
type receiver struct {
	mu       sync.Mutex
	answers  []func(http.ResponseWriter)
	bodies   []string
	problems []error
}

func status(code int) func(http.ResponseWriter) {
	return func(w http.ResponseWriter) { w.WriteHeader(code) }
}

func (r *receiver) ServeHTTP(w http.ResponseWriter, request *http.Request) {
	r.mu.Lock()
	defer r.mu.Unlock()
	body, _ := io.ReadAll(request.Body)
	check, err := standardwebhooks.NewWebhook(string(published))
	if err == nil {
		err = check.Verify(body, request.Header)
	}
	if err != nil {
		r.problems = append(r.problems, err)
	}
	r.bodies = append(r.bodies, request.Header.Get("Webhook-Id")+" "+string(body))
	answer := r.answers[0]
	if len(r.answers) > 1 {
		r.answers = r.answers[1:]
	}
	answer(w)
}

func dispatcher(t *testing.T, answers ...func(http.ResponseWriter)) (*Dispatcher, *list, *receiver) {
	t.Helper()
	to := &receiver{answers: answers}
	server := httptest.NewServer(to)
	t.Cleanup(server.Close)
	at := Endpoint{ID: "booking", URL: server.URL + "/hooks", Secrets: []Secret{published}, AllowPrivate: true}
	queue := &list{items: []Delivery{
		{ID: "evt_1", Endpoint: at, Body: []byte(`{"n":1}`)}, {ID: "evt_2", Endpoint: at, Body: []byte(`{"n":2}`)},
	}}
	return NewDispatcher(queue, slog.New(slog.DiscardHandler)), queue, to
}

// drain sends until nothing is due.
func drain(t *testing.T, d *Dispatcher) {
	t.Helper()
	for {
		if d.Once(t.Context()) == 0 {
			return
		}
	}
}

func TestDeliveriesArriveSignedAndInOrder(t *testing.T) {
	d, queue, to := dispatcher(t, status(http.StatusNoContent))
	drain(t, d)
	assert.Empty(t, queue.items)
	assert.Equal(t, []string{`evt_1 {"n":1}`, `evt_2 {"n":2}`}, to.bodies)
	assert.Empty(t, to.problems, "the reference library proves every signature")
}

// A receiver that fails gets the same event again, later, and nothing behind it before.
func TestAFailureHoldsTheOrder(t *testing.T) {
	d, queue, to := dispatcher(t, status(http.StatusInternalServerError), status(http.StatusOK))
	before := time.Now()
	assert.Equal(t, 1, d.Once(t.Context()))
	assert.Equal(t, 0, d.Once(t.Context()), "not due yet")
	assert.Equal(t, []string{"answered 500"}, queue.whys)
	wait := queue.next.Sub(before)
	assert.GreaterOrEqual(t, wait, 5*time.Second)
	assert.Less(t, wait, 7*time.Second)

	queue.next = time.Time{}
	drain(t, d)
	assert.Equal(t, []string{`evt_1 {"n":1}`, `evt_1 {"n":1}`, `evt_2 {"n":2}`}, to.bodies)
}

func TestWhatReceiversAnswer(t *testing.T) {
	for _, row := range []struct {
		name   string
		answer func(http.ResponseWriter)
		why    string
		least  time.Duration
	}{
		{"too many, wait two minutes", func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", "120")
			w.WriteHeader(http.StatusTooManyRequests)
		}, "answered 429", 2 * time.Minute},
		{"unavailable until a date", func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", time.Now().Add(time.Hour).UTC().Format(http.TimeFormat))
			w.WriteHeader(http.StatusServiceUnavailable)
		}, "answered 503", 59 * time.Minute},
		{"a wait that is nonsense", func(w http.ResponseWriter) {
			w.Header().Set("Retry-After", "soon")
			w.WriteHeader(http.StatusTooManyRequests)
		}, "answered 429", 5 * time.Second},
		{"a redirect", func(w http.ResponseWriter) {
			w.Header().Set("Location", "http://127.0.0.1:1/elsewhere")
			w.WriteHeader(http.StatusTemporaryRedirect)
		}, "answered 307, a redirect; redirects are not followed, put the final address in", 5 * time.Second},
	} {
		t.Run(row.name, func(t *testing.T) {
			d, queue, to := dispatcher(t, row.answer)
			before := time.Now()
			d.Once(t.Context())
			assert.Equal(t, []string{row.why}, queue.whys)
			assert.GreaterOrEqual(t, queue.next.Sub(before), row.least)
			assert.Len(t, to.bodies, 1)
		})
	}
}

func TestGoneEndsTheService(t *testing.T) {
	d, queue, to := dispatcher(t, status(http.StatusGone))
	drain(t, d)
	assert.Equal(t, "booking", queue.disabled)
	assert.Len(t, to.bodies, 1)
}

func TestAfterTheLastTryItIsBuried(t *testing.T) {
	d, queue, to := dispatcher(t, status(http.StatusBadGateway))
	for len(queue.buried) == 0 {
		queue.next = time.Time{}
		require.Equal(t, 1, d.Once(t.Context()))
	}
	assert.Equal(t, []string{"evt_1"}, queue.buried)
	assert.Len(t, to.bodies, MostTries)
	assert.Equal(t, "evt_2", queue.items[0].ID, "what is given up holds up nothing behind it")
}

// An endpoint of the open network that leads to a private address is never connected to.
func TestTheGuardLooksAtTheAddress(t *testing.T) {
	d, queue, to := dispatcher(t, status(http.StatusOK))
	queue.items[0].Endpoint.AllowPrivate = false
	d.Once(t.Context())
	require.Len(t, queue.whys, 1)
	assert.Contains(t, queue.whys[0], "does not begin with https://")

	out := newWire(usualTimeout).send(t.Context(), Delivery{ID: "evt_3", Endpoint: Endpoint{URL: "https://localhost:9/", Secrets: []Secret{published}}}, time.Now())
	assert.Equal(t, "its name leads to a private or local address", out.why)
	assert.Empty(t, to.bodies)
}

func TestAReceiverThatIsNotThere(t *testing.T) {
	server := httptest.NewServer(http.NotFoundHandler())
	url := server.URL
	server.Close()
	out := newWire(usualTimeout).send(t.Context(), Delivery{ID: "evt_1", Endpoint: Endpoint{URL: url, Secrets: []Secret{published}, AllowPrivate: true}}, time.Now())
	assert.False(t, out.delivered)
	assert.Contains(t, out.why, "could not be reached")
}

func TestRunStopsWhenTold(t *testing.T) {
	d, queue, _ := dispatcher(t, status(http.StatusOK))
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan struct{})
	go func() { d.Run(ctx); close(done) }()
	d.Wake()
	require.Eventually(t, func() bool {
		queue.mu.Lock()
		defer queue.mu.Unlock()
		return len(queue.items) == 0
	}, 5*time.Second, 5*time.Millisecond)
	stop()
	<-done
}

// The waits are those that Standard Webhooks proposes, each up to a fifth longer.
func TestWaits(t *testing.T) {
	var total time.Duration
	for tries := 1; tries < MostTries; tries++ {
		least, ok := Pace{}.settled().after(tries, 0)
		require.True(t, ok)
		most, _ := Pace{}.settled().after(tries, 1)
		assert.InEpsilon(t, 1.2*float64(least), float64(most), 1e-9)
		total += least
	}
	assert.Equal(t, 75*time.Hour+35*time.Minute+5*time.Second, total)
	_, ok := Pace{}.settled().after(MostTries, 0)
	assert.False(t, ok)
}
