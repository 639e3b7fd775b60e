package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// webhooks is the group of commands about other systems that are told what happens to jobs.
func (p *program) webhooks() *cobra.Command {
	return group("webhook", "Tell other systems what happens to jobs",
		"A webhook is an address that is sent an event whenever a job is booked, changed, planned, finished, handed over or cancelled:\n"+
			"CloudEvents 1.0 in JSON, signed as Standard Webhooks say. What is to be told is kept with the jobs and sent by glossladder\n"+
			"serve over the same record, at least once and the events of one job in their order.",
		p.addWebhook(), p.listWebhooks(), p.showWebhook(), p.stopWebhook(), p.resumeWebhook(), p.rotateWebhook(), p.removeWebhook(),
		p.webhookDeliveries(), p.redeliverWebhook())
}

// teller calls the service that tells others.
func (p *program) teller(ctx context.Context, call func(context.Context, glossladderv1.WebhookServiceClient) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	err := p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewWebhookServiceClient(connection))
	})
	return p.unknownTo(err, "glossladder webhook list")
}

func (p *program) addWebhook() *cobra.Command {
	var id string
	var private bool
	cmd := &cobra.Command{
		Use:     "add URL",
		Short:   "Add an address to be told, and print its secret, once",
		Example: "  glossladder webhook add https://booking.example/hooks --id booking\n  glossladder webhook add http://192.168.1.20:8080/hooks --id front-desk --private",
		Args:    oneNamed("URL"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			var made *glossladderv1.CreateWebhookResponse
			err := p.teller(cmd.Context(), func(ctx context.Context, teller glossladderv1.WebhookServiceClient) (err error) {
				made, err = teller.CreateWebhook(ctx, &glossladderv1.CreateWebhookRequest{
					Webhook: &glossladderv1.Webhook{Url: args[0], AllowPrivate: private}, WebhookId: id,
				})
				return err
			})
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(made)
			}
			name := idOf(made.GetWebhook().GetName())
			fmt.Fprintf(p.out, "Webhook %s is told from now on.\nSecret, shown this once: %s\nThe receiver proves each signature with it. How it goes: glossladder webhook deliveries %s\n",
				name, made.GetSecret(), name)
			return nil
		}),
	}
	cmd.Flags().StringVar(&id, "id", "", "the last part of its name: small letters, digits and single hyphens (left out: one is made up)")
	cmd.Flags().BoolVar(&private, "private", false, "it may stand at a private or local address, and be reached without TLS")
	p.keeps(cmd)
	return cmd
}

func (p *program) listWebhooks() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List webhooks",
		Args:  noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			var all *glossladderv1.ListWebhooksResponse
			err := p.teller(cmd.Context(), func(ctx context.Context, teller glossladderv1.WebhookServiceClient) (err error) {
				all, err = teller.ListWebhooks(ctx, &glossladderv1.ListWebhooksRequest{})
				return err
			})
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(all)
			}
			return page.Webhooks(p.out, all.GetWebhooks(), p.style())
		}),
	}
	p.keeps(cmd)
	return cmd
}

func (p *program) showWebhook() *cobra.Command {
	return p.oneWebhook("show WEBHOOK", "Show a webhook", nil, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, name string) error {
		found, err := teller.GetWebhook(ctx, &glossladderv1.GetWebhookRequest{Name: name})
		if err != nil {
			return err
		}
		return p.webhook(found)
	})
}

// oneWebhook makes a command about one webhook.
func (p *program) oneWebhook(use, short string, flags func(*cobra.Command), call func(context.Context, glossladderv1.WebhookServiceClient, string) error) *cobra.Command {
	cmd := &cobra.Command{
		Use: use, Short: short, Args: oneNamed("webhook"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.teller(cmd.Context(), func(ctx context.Context, teller glossladderv1.WebhookServiceClient) error {
				return call(ctx, teller, named("webhooks", args[0]))
			})
		}),
	}
	if flags != nil {
		flags(cmd)
	}
	p.keeps(cmd)
	return cmd
}

func (p *program) webhook(w *glossladderv1.Webhook) error {
	if p.asJSON() {
		return p.json(w)
	}
	return page.Webhook(p.out, w, zone(), p.style())
}

// changeWebhook makes a command that changes one webhook, if it is to only while the webhook is as it was read.
func (p *program) changeWebhook(use, short string, flags func(*cobra.Command), call func(context.Context, glossladderv1.WebhookServiceClient, *glossladderv1.Webhook) error) *cobra.Command {
	var etag string
	return p.oneWebhook(use, short, func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&etag, "etag", "", "only if nobody changed it since: the etag that \"webhook show\" tells (left out: in any case)")
		if flags != nil {
			flags(cmd)
		}
	}, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, name string) error {
		return call(ctx, teller, &glossladderv1.Webhook{Name: name, Etag: etag})
	})
}

func (p *program) stopWebhook() *cobra.Command {
	return p.changeWebhook("stop WEBHOOK", "Send nothing for now; what happens meanwhile is sent later", nil, p.setStopped(true))
}

func (p *program) resumeWebhook() *cobra.Command {
	var url string
	return p.changeWebhook("resume WEBHOOK", "Send again, what happened meanwhile first", func(cmd *cobra.Command) {
		cmd.Flags().StringVar(&url, "url", "", "to another address (left out: the one it has)")
	}, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, w *glossladderv1.Webhook) error {
		if url == "" {
			return p.setStopped(false)(ctx, teller, w)
		}
		w.Url = url
		return p.updateWebhook(ctx, teller, w, "stopped", "url")
	})
}

func (p *program) setStopped(stopped bool) func(context.Context, glossladderv1.WebhookServiceClient, *glossladderv1.Webhook) error {
	return func(ctx context.Context, teller glossladderv1.WebhookServiceClient, w *glossladderv1.Webhook) error {
		w.Stopped = stopped
		return p.updateWebhook(ctx, teller, w, "stopped")
	}
}

func (p *program) updateWebhook(ctx context.Context, teller glossladderv1.WebhookServiceClient, w *glossladderv1.Webhook, fields ...string) error {
	changed, err := teller.UpdateWebhook(ctx, &glossladderv1.UpdateWebhookRequest{Webhook: w, UpdateMask: &fieldmaskpb.FieldMask{Paths: fields}})
	if err != nil {
		return err
	}
	return p.webhook(changed)
}

func (p *program) rotateWebhook() *cobra.Command {
	var retire bool
	return p.changeWebhook("rotate WEBHOOK", "Make a new secret and print it, once; the old one stays valid beside it", func(cmd *cobra.Command) {
		cmd.Flags().BoolVar(&retire, "retire", false, "make none; the receiver has changed over, and the old one signs no more")
	}, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, w *glossladderv1.Webhook) error {
		name := w.GetName()
		done, err := teller.RotateWebhookSecret(ctx, &glossladderv1.RotateWebhookSecretRequest{Name: name, RetireOld: retire, Etag: w.GetEtag()})
		if err != nil {
			return err
		}
		switch {
		case p.asJSON():
			return p.json(done)
		case retire:
			fmt.Fprintf(p.out, "Webhook %s signs with its newest secret only.\n", idOf(name))
		default:
			fmt.Fprintf(p.out, "New secret, shown this once: %s\nBoth sign until the receiver has changed over; then: glossladder webhook rotate %s --retire\n", done.GetSecret(), idOf(name))
		}
		return nil
	})
}

func (p *program) removeWebhook() *cobra.Command {
	return p.changeWebhook("remove WEBHOOK", "Remove a webhook, and what it is still to be told", nil, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, w *glossladderv1.Webhook) error {
		name := w.GetName()
		gone, err := teller.DeleteWebhook(ctx, &glossladderv1.DeleteWebhookRequest{Name: name, Etag: w.GetEtag()})
		if err != nil {
			return err
		}
		if p.asJSON() {
			return p.json(gone)
		}
		fmt.Fprintf(p.out, "Webhook %s is removed.\n", idOf(name))
		return nil
	})
}

func (p *program) webhookDeliveries() *cobra.Command {
	var limit int
	return p.oneWebhook("deliveries WEBHOOK", "Show what a webhook is still to be told, and what was given up and why", func(cmd *cobra.Command) {
		cmd.Flags().IntVar(&limit, "limit", 50, "at most so many")
	}, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, name string) error {
		if limit < 1 {
			return &usageError{fmt.Sprintf("--limit %d: it is a number from 1", limit)}
		}
		owed, err := deliveryPages(ctx, teller, name, limit)
		if err != nil {
			return err
		}
		if p.asJSON() {
			return p.json(owed)
		}
		return page.Deliveries(p.out, idOf(name), owed, zone(), p.style())
	})
}

// deliveryPages lists up to limit deliveries.
func deliveryPages(ctx context.Context, teller glossladderv1.WebhookServiceClient, name string, limit int) (*glossladderv1.ListWebhookDeliveriesResponse, error) {
	all := &glossladderv1.ListWebhookDeliveriesResponse{}
	request := &glossladderv1.ListWebhookDeliveriesRequest{Parent: name}
	for more := true; more; more = all.GetMore() && len(all.GetDeliveries()) < limit {
		request.PageSize = int32(min(limit-len(all.GetDeliveries()), fullPage)) //nolint:gosec // up to a full page
		page, err := teller.ListWebhookDeliveries(ctx, request)
		if err != nil {
			return nil, err
		}
		all.Deliveries = append(all.Deliveries, page.GetDeliveries()...)
		request.PageToken = page.GetNextPageToken()
		all.NextPageToken, all.More = page.GetNextPageToken(), page.GetNextPageToken() != ""
	}
	return all, nil
}

func (p *program) redeliverWebhook() *cobra.Command {
	return p.oneWebhook("redeliver WEBHOOK", "Send what was given up again", nil, func(ctx context.Context, teller glossladderv1.WebhookServiceClient, name string) error {
		done, err := teller.RedeliverWebhook(ctx, &glossladderv1.RedeliverWebhookRequest{Name: name})
		if err != nil {
			return err
		}
		switch n := done.GetDeliveries(); {
		case p.asJSON():
			return p.json(done)
		case n == 0:
			fmt.Fprintln(p.out, "Nothing was given up. What is still owed is tried again by itself.")
		case n == 1:
			fmt.Fprintln(p.out, "One event is due again.")
		default:
			fmt.Fprintf(p.out, "%d events are due again.\n", n)
		}
		return nil
	})
}
