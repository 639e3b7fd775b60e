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
			fmt.Fprintf(p.out, "glossladder %s, contract glossladder.v1, built with %s\n", buildVersion(), build.GoVersion)
			return nil
		}),
	}
}

// buildVersion is the version of this program, "(devel)" for one built from a working tree.
func buildVersion() string {
	if build, ok := debug.ReadBuildInfo(); ok && build.Main.Version != "" {
		return build.Main.Version
	}
	return "(devel)"
}
