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
	// StateDir is the folder of what the service remembers: every rule set that came into force, so that a start whose
	// rules folder does not load can fall back on the last one that did. Empty: nothing is remembered.
	StateDir string
	// Metrics is the address to serve Prometheus metrics on, such as "127.0.0.1:9090", over HTTP at /metrics. Empty: none.
	Metrics string
	// Log takes one record for each call and each failure. Nil: none.
	Log *slog.Logger
}

// Validate returns every complaint about the options.
func (o Options) Validate() error {
	return errors.Join(o.checkOwn(), o.checkRulesDir())
}

// checkOwn looks at what the service itself needs.
func (o Options) checkOwn() error {
	var complaints []error
	if o.Listen != "" {
		complaints = append(complaints, checkLoopback("listen", o.Listen, "127.0.0.1:7070"))
	}
	if o.Metrics != "" {
		complaints = append(complaints, checkLoopback("metrics", o.Metrics, "127.0.0.1:9090"))
		if o.Listen == "" {
			complaints = append(complaints, errors.New("metrics are of a service that listens; set Options.Listen"))
		}
	}
	if o.StateDir != "" {
		if info, err := os.Stat(o.StateDir); err == nil && !info.IsDir() {
			complaints = append(complaints, fmt.Errorf("state folder %s is a file; name a folder", o.StateDir))
		}
	}
	return errors.Join(complaints...)
}

func (o Options) checkRulesDir() error {
	if o.RulesDir == "" {
		return nil
	}
	info, err := os.Stat(o.RulesDir)
	switch {
	case err != nil:
		return fmt.Errorf("rules folder: %w", err)
	case !info.IsDir():
		return fmt.Errorf("rules folder %s is a file; name the folder that holds the rule files", o.RulesDir)
	}
	return nil
}

// remembers says whether a start whose rules folder does not load, or is not there, may fall back on an earlier set.
func (o Options) remembers() bool { return o.Listen != "" && o.StateDir != "" }

// checkLoopback keeps the service on this machine: it has no keys yet, so nobody else may reach it.
func checkLoopback(what, address, example string) error {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return fmt.Errorf("%s address %q: give host and port, such as %s", what, address, example)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return fmt.Errorf("%s address %q reaches beyond this machine, and the service asks no caller for a key; listen on 127.0.0.1 and put a proxy that does in front", what, address)
	}
	return nil
}
