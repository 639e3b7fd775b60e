// Command glossladder is the whole program: the service and its command line.
package main

import (
	"os"

	"github.com/glossladder/glossladder/clients/cli"
)

func main() { os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
