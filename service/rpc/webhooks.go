package rpc

import (
	"context"
	"errors"
	"strings"
	"time"

	"google.golang.org/protobuf/types/known/emptypb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/notify"
	"github.com/glossladder/glossladder/service/webhook"
)

// webhooks is the collection of webhooks.
const webhooks = "webhooks"

// WebhookServer serves WebhookService from the record.
type WebhookServer struct {
	glossladderv1.UnimplementedWebhookServiceServer
	record JobRecord
	now    func() time.Time
	// wake has what is due looked at now.
	wake func()
}

// NewWebhookServer serves from a record; wake is called when something may be due at once.
func NewWebhookServer(record JobRecord, wake func()) *WebhookServer {
	return &WebhookServer{record: record, now: time.Now, wake: wake}
}

// CreateWebhook makes one and tells its secret, once.
func (s *WebhookServer) CreateWebhook(ctx context.Context, req *glossladderv1.CreateWebhookRequest) (*glossladderv1.CreateWebhookResponse, error) {
	var wrong faults
	m := req.GetWebhook()
	wrong.target(m.GetUrl(), m.GetAllowPrivate())
	if m.GetStopped() {
		wrong.add("webhook.stopped", "cannot be set yet; make it, and stop it then")
	}
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	l := history.Listener{Revision: 1, URL: m.GetUrl(), AllowPrivate: m.GetAllowPrivate(), CreatedAt: history.Moment(s.now())}
	secret := notify.Rotate(&l)
	err = withNewID(req.GetWebhookId(), func(id string) error {
		l.ID = id
		return store.AddListener(ctx, l)
	})
	if err != nil {
		return nil, statusOf(asWebhook(err), "")
	}
	return &glossladderv1.CreateWebhookResponse{Webhook: webhookOut(&l), Secret: string(secret)}, nil
}

// target refuses what must not be sent to.
func (v *faults) target(url string, allowPrivate bool) {
	if url == "" {
		v.add("webhook.url", "is missing; it is where events are sent")
		return
	}
	if err := webhook.CheckURL(url, allowPrivate); err != nil {
		v.add("webhook.url", strings.TrimSuffix(err.Error(), ": "+webhook.ErrTarget.Error()))
	}
}

// asWebhook calls a listener what the contract calls it.
func asWebhook(err error) error {
	if missing, ok := errors.AsType[*history.NotFoundError](err); ok && missing.What == "listener" {
		return &history.NotFoundError{What: "webhook", ID: missing.ID}
	}
	if stale, ok := errors.AsType[*history.ConflictError](err); ok {
		return &history.ConflictError{What: "webhook", ID: stale.ID, Expected: stale.Expected, Have: stale.Have}
	}
	if taken, ok := errors.AsType[*history.ExistsError](err); ok {
		return &history.ExistsError{What: "webhook", ID: taken.ID}
	}
	return err
}

func webhookOut(l *history.Listener) *glossladderv1.Webhook {
	return &glossladderv1.Webhook{
		Name: webhooks + "/" + l.ID, Url: l.URL, AllowPrivate: l.AllowPrivate, Stopped: l.Stopped != "", StoppedBecause: l.Stopped,
		Secrets: int32(len(l.Secrets)), CreateTime: timeOut(l.CreatedAt), Etag: etagOf(l.Revision), //nolint:gosec // two at most
	}
}

// open finds the webhook that a request names, and the record.
func (s *WebhookServer) open(ctx context.Context, field, name string) (id string, store history.Store, err error) {
	var wrong faults
	id = wrong.id(field, webhooks, name)
	if err := wrong.asError(); err != nil {
		return "", nil, err
	}
	store, _, err = s.record.Open(ctx)
	return id, store, err
}

// GetWebhook gives one.
func (s *WebhookServer) GetWebhook(ctx context.Context, req *glossladderv1.GetWebhookRequest) (*glossladderv1.Webhook, error) {
	id, store, err := s.open(ctx, "name", req.GetName())
	if err != nil {
		return nil, statusOf(err, "")
	}
	l, err := notify.Find(ctx, store, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	return webhookOut(&l), nil
}

// ListWebhooks gives all of them.
func (s *WebhookServer) ListWebhooks(ctx context.Context, _ *glossladderv1.ListWebhooksRequest) (*glossladderv1.ListWebhooksResponse, error) {
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	all, err := store.Listeners(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListWebhooksResponse{}
	for i := range all {
		out.Webhooks = append(out.Webhooks, webhookOut(&all[i]))
	}
	return out, nil
}

// byHand is why a webhook is stopped that somebody stopped.
const byHand = "it was stopped by hand"

// UpdateWebhook changes the fields that its mask names.
func (s *WebhookServer) UpdateWebhook(ctx context.Context, req *glossladderv1.UpdateWebhookRequest) (*glossladderv1.Webhook, error) {
	m := req.GetWebhook()
	var wrong faults
	set := wrong.mask(req.GetUpdateMask(), map[string]bool{"url": m.GetUrl() != "", "allow_private": m.GetAllowPrivate(), "stopped": m.GetStopped()})
	expected := wrong.etag("webhook.etag", m.GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	return s.change(ctx, "webhook.name", m.GetName(), expected, func(l *history.Listener) error {
		var wrong faults
		if set["url"] {
			l.URL = m.GetUrl()
		}
		if set["allow_private"] {
			l.AllowPrivate = m.GetAllowPrivate()
		}
		if set["url"] || set["allow_private"] {
			wrong.target(l.URL, l.AllowPrivate)
		}
		switch {
		case set["stopped"] && !m.GetStopped():
			l.Stopped = ""
		case set["stopped"] && l.Stopped == "":
			l.Stopped = byHand
		}
		return wrong.asError()
	})
}

func (s *WebhookServer) change(ctx context.Context, field, name string, expected int64, change func(*history.Listener) error) (*glossladderv1.Webhook, error) {
	id, store, err := s.open(ctx, field, name)
	if err != nil {
		return nil, statusOf(err, "")
	}
	l, err := notify.Change(ctx, store, id, expected, change)
	if err != nil {
		return nil, statusOf(asWebhook(err), "")
	}
	s.wake()
	return webhookOut(&l), nil
}

// RotateWebhookSecret makes a new secret beside the old one, or retires the old one.
func (s *WebhookServer) RotateWebhookSecret(ctx context.Context, req *glossladderv1.RotateWebhookSecretRequest) (*glossladderv1.RotateWebhookSecretResponse, error) {
	var wrong faults
	expected := wrong.etag("etag", req.GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.RotateWebhookSecretResponse{}
	var err error
	out.Webhook, err = s.change(ctx, "name", req.GetName(), expected, func(l *history.Listener) error {
		if req.GetRetireOld() {
			notify.Retire(l)
			return nil
		}
		out.Secret = string(notify.Rotate(l))
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// DeleteWebhook removes one.
func (s *WebhookServer) DeleteWebhook(ctx context.Context, req *glossladderv1.DeleteWebhookRequest) (*emptypb.Empty, error) {
	var wrong faults
	expected := wrong.etag("etag", req.GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	id, store, err := s.open(ctx, "name", req.GetName())
	if err == nil {
		err = store.RemoveListener(ctx, id, expected)
	}
	if err != nil {
		return nil, statusOf(asWebhook(err), "")
	}
	return &emptypb.Empty{}, nil
}

// ListWebhookDeliveries gives what a webhook is still to be told.
func (s *WebhookServer) ListWebhookDeliveries(ctx context.Context, req *glossladderv1.ListWebhookDeliveriesRequest) (*glossladderv1.ListWebhookDeliveriesResponse, error) {
	id, store, err := s.open(ctx, "parent", req.GetParent())
	if err == nil {
		_, err = notify.Find(ctx, store, id)
	}
	if err != nil {
		return nil, statusOf(err, "")
	}
	question := []any{webhooks, id, "deliveries"}
	var after history.TellingKey
	if _, err := history.ReadPage(req.GetPageToken(), question, &after); err != nil {
		return nil, statusOf(err, "")
	}
	limit := history.PageSize(int(req.GetPageSize()))
	owed, next, err := onePage(&limit, question, func() ([]history.Telling, error) { return store.Owed(ctx, id, after, limit) },
		func(last *history.Telling) any { return history.TellingKey{Job: last.Job, Sequence: last.Sequence} })
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListWebhookDeliveriesResponse{More: next != "", NextPageToken: next}
	for i := range owed {
		out.Deliveries = append(out.Deliveries, deliveryOut(&owed[i]))
	}
	return out, nil
}

func deliveryOut(t *history.Telling) *glossladderv1.WebhookDelivery {
	out := &glossladderv1.WebhookDelivery{
		Id: notify.DeliveryID(t), Type: notify.TypeOf(t.Kind), Job: jobs + "/" + t.Job, Sequence: t.Sequence,
		State: glossladderv1.DeliveryState_DELIVERY_STATE_OWED, Tries: int32(t.Tries), DueTime: timeOut(t.DueAt), Why: strings.TrimSpace(t.Why), //nolint:gosec // a few
	}
	if t.GivenUp {
		out.State, out.DueTime = glossladderv1.DeliveryState_DELIVERY_STATE_GIVEN_UP, nil
	}
	return out
}

// RedeliverWebhook sends what was given up again.
func (s *WebhookServer) RedeliverWebhook(ctx context.Context, req *glossladderv1.RedeliverWebhookRequest) (*glossladderv1.RedeliverWebhookResponse, error) {
	id, store, err := s.open(ctx, "name", req.GetName())
	if err == nil {
		_, err = notify.Find(ctx, store, id)
	}
	if err != nil {
		return nil, statusOf(err, "")
	}
	n, err := store.TellAgain(ctx, id, history.Moment(s.now()))
	if err != nil {
		return nil, statusOf(err, "")
	}
	s.wake()
	return &glossladderv1.RedeliverWebhookResponse{Deliveries: n}, nil
}
