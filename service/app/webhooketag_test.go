package app_test

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// A change with the etag of what was read is made only if nobody was quicker; without one it is made of what the other left.
func TestAWebhookIsNotChangedUnseen(t *testing.T) {
	hooks := v1.NewWebhookServiceClient(dial(t, quick(t)))
	first := hooked(t, hooks, "http://127.0.0.1:1/").GetWebhook()
	assert.Equal(t, "1", first.GetEtag())
	stop := func(etag string) (*v1.Webhook, error) {
		return hooks.UpdateWebhook(t.Context(), &v1.UpdateWebhookRequest{
			Webhook: &v1.Webhook{Name: "webhooks/desk", Stopped: true, Etag: etag}, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"stopped"}},
		})
	}
	second, err := stop(first.GetEtag())
	require.NoError(t, err)
	assert.Equal(t, "2", second.GetEtag())

	for name, call := range map[string]func(context.Context) error{
		"update": func(context.Context) error {
			_, err := stop(first.GetEtag())
			return err
		},
		"rotate": func(ctx context.Context) error {
			_, err := hooks.RotateWebhookSecret(ctx, &v1.RotateWebhookSecretRequest{Name: "webhooks/desk", Etag: first.GetEtag()})
			return err
		},
		"delete": func(ctx context.Context) error {
			_, err := hooks.DeleteWebhook(ctx, &v1.DeleteWebhookRequest{Name: "webhooks/desk", Etag: first.GetEtag()})
			return err
		},
	} {
		err := call(t.Context())
		require.Equal(t, codes.Aborted, status.Code(err), "%s: %v", name, err)
		assert.Equal(t, "webhook desk has changed since it was read (it was at 1 and is at 2); read it again and decide again", status.Convert(err).Message(), name)
		assert.Equal(t, "STALE_ETAG", reason(t, err).GetReason(), name)
		assert.Equal(t, map[string]string{"name": "webhooks/desk", "etag": "2"}, reason(t, err).GetMetadata(), name)
	}
	now, err := hooks.GetWebhook(t.Context(), &v1.GetWebhookRequest{Name: "webhooks/desk"})
	require.NoError(t, err)
	assert.Equal(t, int32(1), now.GetSecrets(), "no secret was made")
	assert.Equal(t, second.GetEtag(), now.GetEtag())

	_, err = stop("yesterday")
	assert.Equal(t, []string{"webhook.etag"}, fieldsOf(t, err))
	third, err := stop("")
	require.NoError(t, err, "without an etag it is made in any case")
	_, err = hooks.DeleteWebhook(t.Context(), &v1.DeleteWebhookRequest{Name: "webhooks/desk", Etag: third.GetEtag()})
	require.NoError(t, err)
}

// Of changes at the same moment none is lost: each secret that was told signs, or was pushed out by a newer one, and of those that
// carry one etag one is made.
func TestChangesOfAWebhookAtTheSameMoment(t *testing.T) {
	hooks := v1.NewWebhookServiceClient(dial(t, quick(t)))
	first := hooked(t, hooks, "http://127.0.0.1:1/").GetWebhook()
	together := func(n int, call func(i int) error) (errs []error) {
		errs = make([]error, n)
		var all sync.WaitGroup
		for i := range n {
			all.Go(func() { errs[i] = call(i) })
		}
		all.Wait()
		return errs
	}
	made := 0
	for _, err := range together(8, func(i int) error {
		_, err := hooks.UpdateWebhook(t.Context(), &v1.UpdateWebhookRequest{
			Webhook: &v1.Webhook{Name: "webhooks/desk", Url: fmt.Sprintf("http://127.0.0.1:%d/", 1+i), Etag: first.GetEtag()},
		})
		return err
	}) {
		if err == nil {
			made++
			continue
		}
		assert.Equal(t, codes.Aborted, status.Code(err), "%v", err)
	}
	assert.Equal(t, 1, made)

	for _, err := range together(6, func(i int) error {
		if i == 0 {
			_, err := hooks.UpdateWebhook(t.Context(), &v1.UpdateWebhookRequest{Webhook: &v1.Webhook{Name: "webhooks/desk", Stopped: true}})
			return err
		}
		_, err := hooks.RotateWebhookSecret(t.Context(), &v1.RotateWebhookSecretRequest{Name: "webhooks/desk"})
		return err
	}) {
		assert.NoError(t, err)
	}
	now, err := hooks.GetWebhook(t.Context(), &v1.GetWebhookRequest{Name: "webhooks/desk"})
	require.NoError(t, err)
	assert.Equal(t, "8", now.GetEtag(), "six changes after the second")
	assert.True(t, now.GetStopped(), "no rotation took it back")
	assert.Equal(t, int32(2), now.GetSecrets())
}

// What is owed comes page by page, and a token of one webhook says nothing of another.
func TestDeliveriesComeInPages(t *testing.T) {
	conn := dial(t, quick(t))
	jobs, hooks := v1.NewJobServiceClient(conn), v1.NewWebhookServiceClient(conn)
	_, url := receiving(t, http.StatusBadGateway)
	hooked(t, hooks, url)
	_, err := hooks.CreateWebhook(t.Context(), &v1.CreateWebhookRequest{WebhookId: "other", Webhook: &v1.Webhook{Url: url, AllowPrivate: true}})
	require.NoError(t, err)
	estate(t, jobs, "spring")
	for i := range 6 {
		_, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: fmt.Sprintf("job-%d", i), Job: &v1.Job{Vehicle: "vehicles/estate"}})
		require.NoError(t, err)
	}
	var ids []string
	sizes, token := []int{}, ""
	for {
		page, err := hooks.ListWebhookDeliveries(t.Context(), &v1.ListWebhookDeliveriesRequest{Parent: "webhooks/desk", PageSize: 3, PageToken: token})
		require.NoError(t, err)
		for _, d := range page.GetDeliveries() {
			ids = append(ids, d.GetId())
		}
		sizes, token = append(sizes, len(page.GetDeliveries())), page.GetNextPageToken()
		assert.Equal(t, token != "", page.GetMore())
		if token == "" {
			break
		}
		_, err = hooks.ListWebhookDeliveries(t.Context(), &v1.ListWebhookDeliveriesRequest{Parent: "webhooks/other", PageSize: 3, PageToken: token})
		require.Equal(t, codes.InvalidArgument, status.Code(err))
		assert.Equal(t, []string{"page_token"}, fieldsOf(t, err))
	}
	assert.Equal(t, []int{3, 3, 1}, sizes)
	assert.Equal(t, []string{"desk_job-0_1", "desk_job-1_1", "desk_job-2_1", "desk_job-3_1", "desk_job-4_1", "desk_job-5_1", "desk_spring_1"}, ids)
	assert.True(t, slices.IsSorted(ids))
	_, err = hooks.ListWebhookDeliveries(t.Context(), &v1.ListWebhookDeliveriesRequest{Parent: "webhooks/desk", PageToken: "nonsense"})
	assert.Equal(t, []string{"page_token"}, fieldsOf(t, err))
}
