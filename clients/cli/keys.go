package cli

import (
	"context"
	"fmt"
	"os"
	"text/tabwriter"
	"time"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/app"
)

// keys is the group of commands about who may call the service from other machines.
func (p *program) keys() *cobra.Command {
	return group("key", "Say who may call the service from other machines",
		"A service that other machines can reach answers nobody without an access key, except on the machine it runs on. A phone is\n"+
			"paired with a code (key pair) and keeps its key by itself; programs and other machines are given one (key add).\n"+
			"What is kept of a key is a hash. A key may do all that the service does, until it is revoked.",
		p.addKey(), p.listKeys(), p.revokeKey(), p.pairPhone())
}

func (p *program) addKey() *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "add NAME",
		Short: "Make a key, and print it, once",
		Long: "Makes a key and prints it, this once. The key also says which service it is for: --key-file and GLOSSLADDER_KEY send it to\n" +
			"no other. NAME says whose it is.",
		Example: "  glossladder key add \"office laptop\" --out laptop.key\n  glossladder job list --server 192.168.1.20:7070 --key-file laptop.key    (there)",
		Args:    oneNamed("name"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.withKeys(cmd, func(ctx context.Context, folder access.Folder) error {
				return p.makeKey(ctx, folder, args[0], out)
			})
		}),
	}
	cmd.Flags().StringVar(&out, "out", "", "write the key into this new file, which only you can read, instead of printing it")
	return p.keysIn(cmd)
}

func (p *program) makeKey(ctx context.Context, folder access.Folder, name, out string) error {
	file, err := newSecretFile(out)
	if err != nil {
		return err
	}
	key, text, err := folder.Add(ctx, name, time.Now())
	if err != nil {
		if file != nil {
			_ = file.Close()
			_ = os.Remove(out)
		}
		return err
	}
	if file == nil {
		fmt.Fprintf(p.out, "Key %s of %s, shown this once:\n%s\nOn the other machine, put it into a file for --key-file or into GLOSSLADDER_KEY.\n", key.ID, key.Name, text)
		return nil
	}
	if _, err := fmt.Fprintln(file, text); err != nil {
		return err
	}
	fmt.Fprintf(p.out, "Key %s of %s is in %s. Take it to the other machine and name it there with --key-file.\n", key.ID, key.Name, out)
	return file.Close()
}

// newSecretFile makes a file that nobody else can read, before the key for it is made; none for "".
func newSecretFile(path string) (*os.File, error) {
	if path == "" {
		return nil, nil
	}
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
}

func (p *program) listKeys() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the keys that are good, without their secrets",
		Args:  noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			return p.withKeys(cmd, func(_ context.Context, folder access.Folder) error {
				all, err := folder.Keys()
				if err != nil {
					return err
				}
				if len(all) == 0 {
					fmt.Fprintln(p.out, "There is no key. Make one: glossladder key add NAME. Pair a phone: glossladder serve --lan.")
					return nil
				}
				table := tabwriter.NewWriter(p.out, 0, 0, 2, ' ', 0)
				fmt.Fprintln(table, "KEY\tMADE\tWHOSE")
				for _, key := range all {
					fmt.Fprintf(table, "%s\t%s\t%s\n", key.ID, key.Made.Local().Format("2006-01-02 15:04"), key.Name)
				}
				return table.Flush()
			})
		}),
	}
	return p.keysIn(cmd)
}

func (p *program) revokeKey() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "revoke KEY",
		Short:   "End a key; a running service takes notice within a second",
		Long:    "Ends a key for good. A running service refuses it within a second, and ends calls that it has in flight.",
		Example: "  glossladder key list\n  glossladder key revoke k3jx8p2m",
		Args:    oneNamed("key"),
		RunE: running(func(cmd *cobra.Command, args []string) error {
			return p.withKeys(cmd, func(ctx context.Context, folder access.Folder) error {
				gone, err := folder.Revoke(ctx, args[0])
				if err != nil {
					return err
				}
				fmt.Fprintf(p.out, "Key %s of %s is good no more.\n", gone.ID, gone.Name)
				return nil
			})
		}),
	}
	return p.keysIn(cmd)
}

// keysIn adds the flag that says whose keys are meant.
func (p *program) keysIn(cmd *cobra.Command) *cobra.Command {
	cmd.Flags().StringVar(&p.stateDir, "state", "", "state folder of the service (left out: the user's data folder)")
	return cmd
}

// withKeys does something with the keys of the service.
func (p *program) withKeys(cmd *cobra.Command, do func(context.Context, access.Folder) error) error {
	if p.stateDir == "" {
		folder, err := stateFolder()
		if err != nil {
			return err
		}
		p.stateDir = folder
	}
	ctx, cancel := context.WithTimeout(cmd.Context(), answerTime)
	defer cancel()
	return do(ctx, app.AccessFolder(p.stateDir))
}
