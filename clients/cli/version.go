package cli

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func (p *program) version() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Say which build this is",
		Args:  noArguments,
		RunE: running(func(*cobra.Command, []string) error {
			build, ok := debug.ReadBuildInfo()
			if !ok {
				return fmt.Errorf("this build says nothing about itself")
			}
			version := build.Main.Version
			if version == "" {
				version = "(devel)"
			}
			fmt.Fprintf(p.out, "glossladder %s, contract glossladder.v1, built with %s\n", version, build.GoVersion)
			return nil
		}),
	}
}
