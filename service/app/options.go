package app

import (
	"errors"
	"fmt"
	"log/slog"
	"net"
	"os"
)

// Options say how to run the service. The zero value runs in process only, with the rules as shipped and no log.
type Options struct {
	// Listen is the address to serve on, such as "127.0.0.1:7070"; port 0 takes any free one. Empty: in process only.
	Listen string
	// RulesDir is the folder of the shop's own rule set. Empty: the rules as shipped.
	RulesDir string
	// Log takes one record for each call and each failure. Nil: none.
	Log *slog.Logger
}

// Validate returns every complaint about the options.
func (o Options) Validate() error {
	var complaints []error
	if o.Listen != "" {
		complaints = append(complaints, checkListen(o.Listen))
	}
	if o.RulesDir != "" {
		if info, err := os.Stat(o.RulesDir); err != nil {
			complaints = append(complaints, fmt.Errorf("rules folder: %w", err))
		} else if !info.IsDir() {
			complaints = append(complaints, fmt.Errorf("rules folder %s is a file; name the folder that holds the rule files", o.RulesDir))
		}
	}
	return errors.Join(complaints...)
}

// checkListen keeps the service on this machine: it has no keys yet, so nobody else may reach it.
func checkListen(address string) error {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return fmt.Errorf("listen address %q: give host and port, such as 127.0.0.1:7070", address)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return fmt.Errorf("listen address %q reaches beyond this machine, and the service asks no caller for a key; listen on 127.0.0.1 and put a proxy that does in front", address)
	}
	return nil
}
