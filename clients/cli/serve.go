package cli

import (
	"fmt"
	"log/slog"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/service/app"
)

func (p *program) serve() *cobra.Command {
	var listen string
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "Serve the gRPC service until a signal stops it",
		Long: "Serves glossladder.v1 over gRPC, with health and reflection, and logs each call to standard error. SIGINT (Ctrl-C) or\n" +
			"SIGTERM lets calls in flight finish and then stops; a second one stops at once.",
		Example: "  glossladder serve\n  glossladder serve --listen 127.0.0.1:7070 --rules my-rules",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			ctx, stop := signal.NotifyContext(cmd.Context(), syscall.SIGINT, syscall.SIGTERM)
			defer stop()
			service, err := app.New(app.Options{Listen: listen, RulesDir: p.rulesDir, Log: slog.New(slog.NewTextHandler(p.err, nil))})
			if err != nil {
				return err
			}
			p.welcome(service.Addr())
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
	cmd.Flags().StringVar(&listen, "listen", "127.0.0.1:7070", "address to serve on; port 0 takes any free one")
	cmd.Flags().StringVar(&p.rulesDir, "rules", "", "folder of the rules to decide by (left out: the rules as shipped)")
	return cmd
}

func (p *program) welcome(address string) {
	rules := "the rules as shipped"
	if p.rulesDir != "" {
		rules = "the rules in " + p.rulesDir
	}
	fmt.Fprintf(p.out, `Serving glossladder.v1 on %[1]s with %[2]s. Ctrl-C stops.
Try it from another terminal:
  glossladder recommend --template | glossladder recommend - --server %[1]s
  grpcurl -plaintext %[1]s list
  grpcurl -plaintext -d '{"prefix": "film."}' %[1]s glossladder.v1.AdvisorService/ListFacts
`, address, rules)
}
