package cli

import (
	"cmp"
	"errors"
	"fmt"
	"log/slog"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/app"
)

func (p *program) serve() *cobra.Command {
	var opts app.Options
	var lan bool
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "Serve the gRPC service until a signal stops it",
		Long: "Serves glossladder.v1 on one port as gRPC, Connect, gRPC-Web and JSON over HTTP, with health, and logs each call to standard error. SIGINT (Ctrl-C) or\n" +
			"SIGTERM lets calls in flight finish and then stops; a second one stops at once.\n\n" +
			"On this machine no caller needs a key. Other machines reach it with --lan, over TLS, and each needs a key: see key.\n\n" +
			"Edits of the rules folder are taken up while it runs. Every rule set that comes into force is remembered under --state:\n" +
			"a start whose folder does not load goes on with the last set of it that did, and says so. See rules status and rules\n" +
			"history.",
		Example: "  glossladder serve\n  glossladder serve --listen 127.0.0.1:7070 --rules my-rules\n  glossladder serve --lan --rules my-rules\n  glossladder serve --rules my-rules --metrics 127.0.0.1:9090",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			ctx, stop := signal.NotifyContext(cmd.Context(), syscall.SIGINT, syscall.SIGTERM)
			defer stop()
			p.remembering(cmd, &opts.StateDir)
			if !cmd.Flags().Changed("data") {
				if err := p.settle(); err != nil {
					fmt.Fprintf(p.err, "glossladder: %v; none are kept\n", err)
				}
			}
			opts.Data = p.data
			opts.RulesDir, opts.Log = p.rulesDir, slog.New(slog.NewTextHandler(p.err, nil))
			var pairing access.Pairing
			if lan {
				var err error
				if pairing, err = p.openLAN(cmd, &opts); err != nil {
					return err
				}
			}
			service, err := app.New(opts)
			if err != nil {
				return err
			}
			if err := p.welcome(service, pairing); err != nil {
				return errors.Join(err, service.Close())
			}
			go func() {
				<-ctx.Done()
				stop() // from here on a signal ends the process
			}()
			if err := service.Run(ctx); err != nil {
				return err
			}
			fmt.Fprintln(p.out, "Stopped.")
			return nil
		}),
	}
	cmd.Flags().StringVar(&opts.Listen, "listen", "127.0.0.1:7070", "address to serve on; port 0 takes any free one")
	cmd.Flags().BoolVar(&lan, "lan", false, "let other machines in the network in, over TLS and with a key each, and show a code that pairs a phone; listens on port 7070 everywhere unless --listen says where")
	cmd.Flags().BoolVar(&opts.ShareReports, "share-reports", false, "let report links be read from other machines without a key")
	cmd.Flags().StringVar(&p.rulesDir, "rules", "", "folder of the rules to decide by (left out: the rules as shipped)")
	cmd.Flags().StringVar(&opts.StateDir, "state", "", "folder to remember rule sets and access keys in (left out: the user's data folder; \"\": remember none)")
	p.dataFlag(cmd)
	cmd.Flags().StringVar(&opts.EventSource, "event-source", "", "whose events webhooks are told, as /shops/main (left out: /glossladder)")
	cmd.Flags().DurationVar(&opts.WebhookTimeout, "webhook-timeout", 0, "how long a webhook's receiver may take to answer (left out: 20s)")
	cmd.Flags().DurationSliceVar(&opts.WebhookWaits, "webhook-waits", nil, "waits after tries in vain, with commas between, after which an event is given up (left out: nine, from 5s to 24h)")
	cmd.Flags().StringVar(&opts.Metrics, "metrics", "", "address to serve metrics for Prometheus on, at /metrics (left out: none)")
	return cmd
}

// remembering fills in the folder to remember rule sets in, unless the command line says one or none.
func (p *program) remembering(cmd *cobra.Command, dir *string) {
	if cmd.Flags().Changed("state") {
		return
	}
	folder, err := stateFolder()
	if err != nil {
		fmt.Fprintf(p.err, "glossladder: %v; rule sets are not remembered\n", err)
	}
	*dir = folder
}

func (p *program) welcome(service *app.App, pairing access.Pairing) error {
	rules := "the rules as shipped"
	if p.rulesDir != "" {
		rules = "the rules in " + p.rulesDir
	}
	here, others := reachedAt(service.Addr())
	if here == "" {
		fmt.Fprintf(p.out, "Serving glossladder.v1 on %s with %s. Ctrl-C stops.\n", service.Addr(), rules)
	} else {
		p.welcomeHere(here, rules)
	}
	if service.MetricsAddr() != "" {
		fmt.Fprintf(p.out, "Metrics: http://%s/metrics\n", service.MetricsAddr())
	}
	if last, yes := service.OnLastGood(); yes {
		p.onLastGood(cmp.Or(here, service.Addr()), last)
	}
	if len(others) > 0 || here != service.Addr() {
		return p.welcomeOthers(service, others, pairing)
	}
	return nil
}

// welcomeHere says what to try on this machine.
func (p *program) welcomeHere(address, rules string) {
	fmt.Fprintf(p.out, `Serving glossladder.v1 on %[1]s with %[2]s. Ctrl-C stops.
Open http://%[1]s/ in a browser: jobs, class room and rules. Or try it from another terminal:
  glossladder recommend --template | glossladder recommend - --server %[1]s
  curl http://%[1]s/v1/facts?prefix=film.
  grpcurl -plaintext %[1]s list
  grpcurl -plaintext -d '{"prefix": "film."}' %[1]s glossladder.v1.AdvisorService/ListFacts
`, address, rules)
}

// onLastGood says loudly that the service does not decide by the files as they are.
func (p *program) onLastGood(address string, last app.LastGood) {
	fmt.Fprintf(p.out, "\nATTENTION: %s does not load, wrong since %s. The service decides by the last set of it that was in\nforce, %s:\n",
		p.rulesDir, last.WrongSince.Local().Format(time.DateTime), last.RuleSet[:12])
	for _, problem := range last.Problems {
		problem.File = filepath.Join(p.rulesDir, filepath.FromSlash(problem.File))
		fmt.Fprintf(p.out, "  %v\n", problem)
	}
	fmt.Fprintf(p.out, "Mend the files and the service takes them up. How it stands: glossladder rules status --server %s\n", address)
}
