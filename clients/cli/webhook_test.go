package cli_test

import (
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	standardwebhooks "github.com/standard-webhooks/standard-webhooks/libraries/go"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// arrival is one request that reached the receiver.
type arrival struct {
	id, body string
	at       time.Time
	answered int
	// proves are the secrets that prove the signature, by their place among those the receiver knows.
	proves []int
}

// event is what a receiver reads of a body.
type event struct {
	SpecVersion, Type, Source, Subject, ID string
	Data                                   struct {
		Job      string
		Sequence int
		Stage    string
	}
}

// reply answers a request and gives the status that it answered.
type reply func(http.ResponseWriter, *http.Request) int

// desk is a receiver at an address that stays, whatever becomes of its server.
type desk struct {
	address string

	mu      sync.Mutex
	server  *http.Server
	secrets []string
	// answers are what comes next; when they are used up it is 204.
	answers  []reply
	arrivals []arrival
}

func (d *desk) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	got := arrival{id: r.Header.Get("Webhook-Id"), body: string(body), at: time.Now()}
	d.mu.Lock()
	for i, secret := range d.secrets {
		check, err := standardwebhooks.NewWebhook(secret)
		if err == nil && check.Verify(body, r.Header) == nil {
			got.proves = append(got.proves, i)
		}
	}
	answer := status(http.StatusNoContent)
	if len(d.answers) > 0 {
		answer, d.answers = d.answers[0], d.answers[1:]
	}
	at := len(d.arrivals)
	d.arrivals = append(d.arrivals, got)
	d.mu.Unlock()
	code := answer(w, r)
	d.mu.Lock()
	d.arrivals[at].answered = code
	d.mu.Unlock()
}

func status(code int) reply {
	return func(w http.ResponseWriter, _ *http.Request) int { w.WriteHeader(code); return code }
}

// open puts a server up at the address.
func (d *desk) open(t *testing.T) {
	t.Helper()
	var listener net.Listener
	require.Eventually(t, func() (done bool) {
		var err error
		listener, err = net.Listen("tcp", d.address)
		return err == nil
	}, 10*time.Second, 20*time.Millisecond, "the port comes free")
	d.address = listener.Addr().String()
	server := &http.Server{Handler: d, ReadHeaderTimeout: time.Minute}
	d.server = server
	go func() { _ = server.Serve(listener) }()
	t.Cleanup(func() { _ = server.Close() })
}

func (d *desk) script(answers ...reply) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.answers = answers
}

func (d *desk) knows(secrets ...string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.secrets = secrets
}

func (d *desk) all() []arrival {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.arrivals)
}

// taken are the events that were taken, each once, in the order in which they were first taken.
func (d *desk) taken(t *testing.T) (out []event) {
	t.Helper()
	seen := map[string]bool{}
	for _, a := range d.all() {
		if a.answered != http.StatusNoContent || seen[a.id] {
			continue
		}
		seen[a.id] = true
		var e event
		require.NoError(t, json.Unmarshal([]byte(a.body), &e))
		out = append(out, e)
	}
	return out
}

// waitFor waits until so many events were taken.
func (d *desk) waitFor(t *testing.T, n int) {
	t.Helper()
	require.Eventually(t, func() bool { return len(d.taken(t)) >= n }, 60*time.Second, 20*time.Millisecond, "%d events are taken; of %d requests", n, len(d.all()))
}

// shop is the record of jobs behind a service that is started again and again.
type shop struct {
	program, data string
	service       *shopService
	jobs          v1.JobServiceClient
	notes         int
}

func (s *shop) start(t *testing.T) {
	t.Helper()
	waits := strings.TrimSuffix(strings.Repeat("100ms,", 20)+strings.Repeat("500ms,", 30), ",")
	s.service = serve(t, s.program, "--data", s.data, "--state", t.TempDir(), "--webhook-timeout", "400ms", "--webhook-waits", waits, "--event-source", "/shops/main")
	conn, err := grpc.NewClient(s.service.address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	t.Cleanup(func() { _ = conn.Close() })
	s.jobs = v1.NewJobServiceClient(conn)
}

// book makes a job.
func (s *shop) book(t *testing.T, job string) {
	t.Helper()
	_, err := s.jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: job, Job: &v1.Job{Vehicle: "vehicles/estate"}})
	require.NoError(t, err)
}

// note changes a job so many times.
func (s *shop) note(t *testing.T, job string, times int) {
	t.Helper()
	for range times {
		s.notes++
		_, err := s.jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/" + job, Label: fmt.Sprintf("note %d", s.notes)}})
		require.NoError(t, err)
	}
}

// hook runs a webhook command on the service and reads its JSON.
func (s *shop) hook(t *testing.T, into any, args ...string) {
	t.Helper()
	said, code := command(t, s.program, append(append([]string{"webhook"}, args...), "--server", s.service.address, "--output", "json")...)
	require.Zero(t, code, said)
	require.NoError(t, json.Unmarshal([]byte(said), into), said)
}

// A receiver that fails, stalls, sends elsewhere, asks to wait, is away while the service is stopped and killed, and says that it
// is gone, gets every event of each job in order once it is back, and can prove every signature.
func TestAReceiverInTroubleGetsEveryEventInOrder(t *testing.T) {
	program := build(t)
	to := &desk{address: "127.0.0.1:0"}
	to.open(t)
	s := &shop{program: program, data: filepath.Join(t.TempDir(), "jobs.db")}
	s.start(t)
	var made struct{ Secret string }
	s.hook(t, &made, "add", "http://"+to.address+"/hooks", "--id", "desk", "--private")
	to.knows(made.Secret)
	_, err := s.jobs.CreateVehicle(t.Context(), &v1.CreateVehicleRequest{VehicleId: "estate", Vehicle: &v1.VehicleRecord{Label: "dark blue estate (invented)"}})
	require.NoError(t, err)

	// It fails, stalls for longer than anybody waits, sends elsewhere, and asks for a second's peace.
	var asked time.Time
	stall := func(_ http.ResponseWriter, r *http.Request) int { <-r.Context().Done(); return 0 }
	peace := func(w http.ResponseWriter, r *http.Request) int {
		asked = time.Now()
		w.Header().Set("Retry-After", "1")
		return status(http.StatusTooManyRequests)(w, r)
	}
	elsewhere := func(w http.ResponseWriter, r *http.Request) int {
		w.Header().Set("Location", "http://"+to.address+"/elsewhere")
		return status(http.StatusTemporaryRedirect)(w, r)
	}
	to.script(status(http.StatusInternalServerError), stall, elsewhere, peace)
	s.book(t, "spring")
	s.note(t, "spring", 3)
	to.waitFor(t, 4)
	early := to.all()
	require.GreaterOrEqual(t, len(early), 8)
	for _, a := range early[:5] {
		assert.Equal(t, early[0].id, a.id, "nothing goes past an event that is not taken")
		assert.Equal(t, early[0].body, a.body, "the same event says the same")
	}
	assert.GreaterOrEqual(t, early[4].at.Sub(asked), time.Second, "it was left in peace")

	// It is away. Meanwhile the service is stopped, and the next one killed.
	require.NoError(t, to.server.Close())
	s.book(t, "autumn")
	s.note(t, "spring", 2)
	var owed struct {
		Deliveries []struct{ ID, Job, State, Why string }
	}
	require.Eventually(t, func() bool {
		s.hook(t, &owed, "deliveries", "desk")
		return len(owed.Deliveries) == 3 && strings.Contains(owed.Deliveries[0].Why, "could not be reached")
	}, 30*time.Second, 50*time.Millisecond)
	s.service.stop(t)
	s.start(t)
	s.note(t, "autumn", 2)
	require.NoError(t, s.service.process.Process.Signal(syscall.SIGKILL))
	_ = s.service.process.Wait()
	s.start(t)
	s.note(t, "autumn", 1)
	to.open(t)
	to.waitFor(t, 10)

	// It says that it is gone, and is told nothing until somebody says otherwise.
	to.script(status(http.StatusGone))
	s.note(t, "spring", 1)
	var hook struct {
		Stopped        bool
		StoppedBecause string `json:"stopped_because"`
	}
	require.Eventually(t, func() bool { s.hook(t, &hook, "show", "desk"); return hook.Stopped }, 30*time.Second, 50*time.Millisecond)
	assert.Contains(t, hook.StoppedBecause, "410")
	s.note(t, "spring", 2)
	_, err = s.jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	s.service.stop(t)
	s.start(t)
	before := len(to.all())
	s.hook(t, &hook, "resume", "desk")
	to.waitFor(t, 14)
	assert.Greater(t, len(to.all()), before)

	// It changes over to a new secret.
	var rotated struct{ Secret string }
	s.hook(t, &rotated, "rotate", "desk")
	to.knows(made.Secret, rotated.Secret)
	s.note(t, "autumn", 1)
	to.waitFor(t, 15)
	both := to.all()
	assert.Equal(t, []int{0, 1}, both[len(both)-1].proves, "either proves it")
	s.hook(t, &struct{}{}, "rotate", "desk", "--retire")
	s.note(t, "autumn", 1)
	to.waitFor(t, 16)

	after := to.all()
	assert.Equal(t, []int{1}, after[len(after)-1].proves)
	for _, a := range after {
		assert.NotEmpty(t, a.proves, "a signature that nobody can prove: %s", a.id)
	}
	inOrder(t, to.taken(t), map[string]int{"jobs/spring": 10, "jobs/autumn": 6})
	require.Eventually(t, func() bool {
		owed.Deliveries = nil
		s.hook(t, &owed, "deliveries", "desk")
		return len(owed.Deliveries) == 0
	}, 30*time.Second, 50*time.Millisecond, "nothing is owed any more")
	s.service.stop(t)
}

// inOrder holds that of each job every event was taken, in its order.
func inOrder(t *testing.T, taken []event, jobs map[string]int) {
	t.Helper()
	last := map[string]int{}
	for _, e := range taken {
		assert.Equal(t, "1.0", e.SpecVersion)
		assert.Equal(t, "/shops/main", e.Source)
		assert.Equal(t, e.Data.Job, e.Subject)
		assert.Equal(t, last[e.Data.Job]+1, e.Data.Sequence, "%s", e.Data.Job)
		last[e.Data.Job] = e.Data.Sequence
		switch {
		case e.Data.Sequence == 1:
			assert.Equal(t, "glossladder.job.booked", e.Type)
		case e.Data.Job == "jobs/spring" && e.Data.Sequence == jobs["jobs/spring"]:
			assert.Equal(t, "glossladder.job.cancelled", e.Type)
			assert.Equal(t, "JOB_STAGE_CANCELLED", e.Data.Stage)
		default:
			assert.Equal(t, "glossladder.job.changed", e.Type)
		}
	}
	assert.Equal(t, jobs, last)
}
