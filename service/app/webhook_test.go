package app_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// post is where events are sent to in a test.
type post struct {
	mu     sync.Mutex
	code   int
	bodies []string
}

func (p *post) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	p.mu.Lock()
	defer p.mu.Unlock()
	w.WriteHeader(p.code)
	if p.code < 300 {
		p.bodies = append(p.bodies, string(body))
	}
}

func (p *post) answers(code int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.code = code
}

func (p *post) got() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return slices.Clone(p.bodies)
}

func receiving(t *testing.T, code int) (*post, string) {
	t.Helper()
	p := &post{code: code}
	server := httptest.NewServer(p)
	t.Cleanup(server.Close)
	return p, server.URL + "/hooks"
}

// quick is a service that tries again soon and gives up after three tries.
func quick(t *testing.T) app.Options {
	t.Helper()
	return app.Options{
		Data: filepath.Join(t.TempDir(), "jobs.db"), WebhookTimeout: 5 * time.Second, WebhookWaits: []time.Duration{10 * time.Millisecond, 10 * time.Millisecond},
	}
}

func hooked(t *testing.T, hooks v1.WebhookServiceClient, url string) *v1.CreateWebhookResponse {
	t.Helper()
	made, err := hooks.CreateWebhook(t.Context(), &v1.CreateWebhookRequest{WebhookId: "desk", Webhook: &v1.Webhook{Url: url, AllowPrivate: true}})
	require.NoError(t, err)
	return made
}

// A whole visit is told, each part with its own type, and each event says no more than it needs to.
func TestAWholeVisitIsTold(t *testing.T) {
	conn := dial(t, quick(t))
	jobs, hooks := v1.NewJobServiceClient(conn), v1.NewWebhookServiceClient(conn)
	to, url := receiving(t, http.StatusOK)
	hooked(t, hooks, url)
	estate(t, jobs, "spring")
	when := time.Date(2026, 5, 4, 7, 0, 0, 0, time.UTC)
	_, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/spring", BookTime: timestamppb.New(when)}})
	require.NoError(t, err)
	visited(t, jobs, "jobs/spring")
	require.Eventually(t, func() bool { return len(to.got()) == 5 }, 20*time.Second, 10*time.Millisecond)
	type event struct {
		Type, Subject, Source, ID string
		Data                      map[string]any
	}
	var told, stages []string
	var last event
	for _, body := range to.got() {
		require.NoError(t, json.Unmarshal([]byte(body), &last))
		told, stages = append(told, last.Type), append(stages, last.Data["stage"].(string))
		assert.Equal(t, "jobs/spring", last.Subject)
		assert.Equal(t, "/glossladder", last.Source)
	}
	assert.Equal(t, []string{
		"glossladder.job.booked", "glossladder.job.changed", "glossladder.job.planned", "glossladder.job.finished", "glossladder.job.handed_over",
	}, told)
	assert.Equal(t, []string{"JOB_STAGE_BOOKED", "JOB_STAGE_BOOKED", "JOB_STAGE_PLANNED", "JOB_STAGE_FINISHED", "JOB_STAGE_HANDED_OVER"}, stages, "as each event left it")
	assert.Equal(t, map[string]any{
		"job": "jobs/spring", "vehicle": "vehicles/estate", "stage": "JOB_STAGE_HANDED_OVER", "label": "spring visit",
		"book_time": "2026-05-04T07:00:00Z", "sequence": 13.0,
	}, last.Data)
	assert.Equal(t, "spring/13", last.ID)
}

// What is given up stays to be looked at with its reason, holds up none behind it, and is sent again by hand.
func TestWhatIsGivenUpIsSentAgainByHand(t *testing.T) {
	conn := dial(t, quick(t))
	jobs, hooks := v1.NewJobServiceClient(conn), v1.NewWebhookServiceClient(conn)
	to, url := receiving(t, http.StatusBadGateway)
	hooked(t, hooks, url)
	estate(t, jobs, "spring")
	owed := func() []*v1.WebhookDelivery {
		all, err := hooks.ListWebhookDeliveries(t.Context(), &v1.ListWebhookDeliveriesRequest{Parent: "webhooks/desk"})
		require.NoError(t, err)
		return all.GetDeliveries()
	}
	require.Eventually(t, func() bool {
		all := owed()
		return len(all) == 1 && all[0].GetState() == v1.DeliveryState_DELIVERY_STATE_GIVEN_UP
	}, 20*time.Second, 10*time.Millisecond)
	one := owed()[0]
	assert.Equal(t, "desk_spring_1", one.GetId())
	assert.Equal(t, "glossladder.job.booked", one.GetType())
	assert.Equal(t, "answered 502", one.GetWhy())
	assert.Equal(t, int32(3), one.GetTries())
	assert.Nil(t, one.GetDueTime())

	to.answers(http.StatusOK)
	_, err := jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	require.Eventually(t, func() bool { return len(to.got()) == 1 }, 20*time.Second, 10*time.Millisecond, "what comes behind it is sent")
	again, err := hooks.RedeliverWebhook(t.Context(), &v1.RedeliverWebhookRequest{Name: "webhooks/desk"})
	require.NoError(t, err)
	assert.Equal(t, int64(1), again.GetDeliveries())
	require.Eventually(t, func() bool { return len(to.got()) == 2 && len(owed()) == 0 }, 20*time.Second, 10*time.Millisecond)
	assert.Contains(t, to.got()[1], "glossladder.job.booked")
}

func TestASecretIsToldOnce(t *testing.T) {
	var log bytes.Buffer
	opts := quick(t)
	opts.Log = slog.New(slog.NewTextHandler(&log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	var secrets []string
	t.Run("while it runs", func(t *testing.T) {
		hooks := v1.NewWebhookServiceClient(dial(t, opts))
		made := hooked(t, hooks, "http://127.0.0.1:1/")
		rotated, err := hooks.RotateWebhookSecret(t.Context(), &v1.RotateWebhookSecretRequest{Name: "webhooks/desk"})
		require.NoError(t, err)
		assert.Equal(t, int32(2), rotated.GetWebhook().GetSecrets())
		third, err := hooks.RotateWebhookSecret(t.Context(), &v1.RotateWebhookSecretRequest{Name: "webhooks/desk"})
		require.NoError(t, err)
		assert.Equal(t, int32(2), third.GetWebhook().GetSecrets(), "the new one and the one before it")
		retired, err := hooks.RotateWebhookSecret(t.Context(), &v1.RotateWebhookSecretRequest{Name: "webhooks/desk", RetireOld: true})
		require.NoError(t, err)
		assert.Empty(t, retired.GetSecret())
		assert.Equal(t, int32(1), retired.GetWebhook().GetSecrets())
		all, err := hooks.ListWebhooks(t.Context(), &v1.ListWebhooksRequest{})
		require.NoError(t, err)
		require.Len(t, all.GetWebhooks(), 1)
		secrets = []string{made.GetSecret(), rotated.GetSecret(), third.GetSecret()}
		for _, secret := range secrets {
			assert.Regexp(t, `^whsec_[A-Za-z0-9+/=]{44}$`, secret)
			assert.NotContains(t, all.String(), secret)
		}
	})
	for _, secret := range secrets {
		assert.NotContains(t, log.String(), secret)
	}
}

func TestWebhooksThatCannotBe(t *testing.T) {
	hooks := v1.NewWebhookServiceClient(dial(t, quick(t)))
	create := func(id string, w *v1.Webhook) error {
		_, err := hooks.CreateWebhook(t.Context(), &v1.CreateWebhookRequest{WebhookId: id, Webhook: w})
		return err
	}
	for _, row := range []struct {
		name, id, field, says string
		hook                  *v1.Webhook
	}{
		{"nothing", "", "webhook", "required", nil},
		{"no address", "", "webhook.url", "is missing", &v1.Webhook{}},
		{"no TLS", "", "webhook.url", "does not begin with https://", &v1.Webhook{Url: "http://booking.example/"}},
		{"this machine", "", "webhook.url", "private or local address", &v1.Webhook{Url: "https://127.0.0.1/"}},
		{"the shop's network", "", "webhook.url", "private or local address", &v1.Webhook{Url: "https://192.168.1.20/"}},
		{"a password in it", "", "webhook.url", "user or password", &v1.Webhook{Url: "https://a:b@booking.example/"}},
		{"another scheme", "", "webhook.url", "does not begin with https://", &v1.Webhook{Url: "file:///etc/passwd", AllowPrivate: true}},
		{"stopped already", "", "webhook.stopped", "stop it then", &v1.Webhook{Url: "https://booking.example/", Stopped: true}},
		{"an id in capitals", "Desk", "webhook_id", "small letters", &v1.Webhook{Url: "https://booking.example/"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := create(row.id, row.hook)
			require.Equal(t, codes.InvalidArgument, status.Code(err), "%v", err)
			assert.Contains(t, fieldsOf(t, err), row.field)
			assert.Contains(t, strings.ToLower(err.Error()), row.says)
		})
	}
	require.NoError(t, create("desk", &v1.Webhook{Url: "https://booking.example/"}))
	assert.Equal(t, codes.AlreadyExists, status.Code(create("desk", &v1.Webhook{Url: "https://booking.example/"})))
	_, err := hooks.UpdateWebhook(t.Context(), &v1.UpdateWebhookRequest{Webhook: &v1.Webhook{Name: "webhooks/desk", Url: "http://10.0.0.1/"}})
	assert.Equal(t, []string{"webhook.url"}, fieldsOf(t, err))
	_, err = hooks.UpdateWebhook(t.Context(), &v1.UpdateWebhookRequest{
		Webhook: &v1.Webhook{Name: "webhooks/desk"}, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"secrets"}},
	})
	assert.Equal(t, []string{"update_mask.paths[0]"}, fieldsOf(t, err))
	_, err = hooks.DeleteWebhook(t.Context(), &v1.DeleteWebhookRequest{Name: "webhooks/desk"})
	require.NoError(t, err)
	for name, call := range map[string]func(context.Context) error{
		"get": func(ctx context.Context) error {
			_, err := hooks.GetWebhook(ctx, &v1.GetWebhookRequest{Name: "webhooks/desk"})
			return err
		},
		"delete": func(ctx context.Context) error {
			_, err := hooks.DeleteWebhook(ctx, &v1.DeleteWebhookRequest{Name: "webhooks/desk"})
			return err
		},
		"rotate": func(ctx context.Context) error {
			_, err := hooks.RotateWebhookSecret(ctx, &v1.RotateWebhookSecretRequest{Name: "webhooks/desk"})
			return err
		},
		"deliveries": func(ctx context.Context) error {
			_, err := hooks.ListWebhookDeliveries(ctx, &v1.ListWebhookDeliveriesRequest{Parent: "webhooks/desk"})
			return err
		},
		"redeliver": func(ctx context.Context) error {
			_, err := hooks.RedeliverWebhook(ctx, &v1.RedeliverWebhookRequest{Name: "webhooks/desk"})
			return err
		},
	} {
		err := call(t.Context())
		assert.Equal(t, codes.NotFound, status.Code(err), name)
		assert.Contains(t, status.Convert(err).Message(), "there is no webhook desk", name)
	}
}

// Without a record there is nothing to tell of.
func TestWebhooksNeedARecord(t *testing.T) {
	hooks := v1.NewWebhookServiceClient(dial(t, app.Options{}))
	_, err := hooks.ListWebhooks(t.Context(), &v1.ListWebhooksRequest{})
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Contains(t, err.Error(), "--data")
}

func TestOptionsOfWebhooks(t *testing.T) {
	assert.ErrorContains(t, app.Options{WebhookTimeout: time.Hour}.Validate(), "webhook timeout 1h0m0s: allowed is up to 2m0s")
	assert.ErrorContains(t, app.Options{WebhookWaits: []time.Duration{0}}.Validate(), "webhook wait 0s")
	assert.ErrorContains(t, app.Options{WebhookWaits: make([]time.Duration, 51)}.Validate(), "there are 51, allowed are up to 50")
	assert.ErrorContains(t, app.Options{EventSource: "a shop"}.Validate(), "is no URI-reference")
	assert.NoError(t, app.Options{EventSource: "//shop.example/main", WebhookWaits: []time.Duration{time.Second}}.Validate())
}
