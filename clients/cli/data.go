package cli

import (
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/service/app"
)

// dataCommands is the group of commands about the file that vehicles and jobs are kept in.
func (p *program) dataCommands() *cobra.Command {
	return group("data", "Back up and check the file that vehicles and jobs are kept in",
		"Vehicles and jobs are kept in one file, jobs.db in the user's data folder unless --data says another. It may be backed up and\n"+
			"checked while a service uses it. Copying the file by hand while it is in use is no backup.",
		p.backup(), p.verify())
}

func (p *program) backup() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "backup FILE",
		Short:   "Copy the file to a new one, whole and verified, while others use it",
		Example: "  glossladder data backup jobs-2026-11-25.db",
		Args:    oneNamed("new file"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			err := p.onFile(cmd.Context(), func(ctx context.Context, service *app.App) error { return service.Backup(ctx, args[0]) })
			if err != nil {
				return err
			}
			fmt.Fprintf(p.out, "%s is a whole copy of %s, and verified.\n", args[0], p.data)
			return nil
		}),
	}
	p.dataFlag(cmd)
	return cmd
}

func (p *program) verify() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "verify",
		Short: "Read the whole file and say whether anything in it is damaged",
		Args:  noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			if err := p.onFile(cmd.Context(), func(ctx context.Context, service *app.App) error { return service.VerifyData(ctx) }); err != nil {
				return err
			}
			fmt.Fprintf(p.out, "%s is whole.\n", p.data)
			return nil
		}),
	}
	p.dataFlag(cmd)
	return cmd
}

// onFile does something with the file of vehicles and jobs, which has to be there. It may take as long as the file is big.
func (p *program) onFile(ctx context.Context, do func(context.Context, *app.App) error) (err error) {
	if err := p.settle(); err != nil {
		return err
	}
	if _, err := os.Stat(p.data); err != nil && !isDatabase(p.data) {
		return err // opening it would make it
	}
	service, err := app.New(app.Options{Data: p.data})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, service.Close()) }()
	return do(ctx, service)
}
