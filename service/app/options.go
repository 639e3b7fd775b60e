package app

import (
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"github.com/glossladder/glossladder/service/webhook"
)

// Options say how to run the service. The zero value runs in process only, with the rules as shipped and no log.
type Options struct {
	// Listen is the address to serve on, such as "127.0.0.1:7070"; port 0 takes any free one. Empty: in process only. An address
	// that other machines reach needs StateDir and a key in it, or a pairing code that is good; see package access.
	Listen string
	// ShareReports lets the pages of report links be read from other machines without a key: each link has its own secret and end.
	ShareReports bool
	// RulesDir is the folder of the shop's own rule set. Empty: the rules as shipped.
	RulesDir string
	// StateDir is the folder of what the service remembers: every rule set that came into force, so that a start whose
	// rules folder does not load can fall back on the last one that did. Empty: nothing is remembered.
	StateDir string
	// Data is where vehicles and jobs are kept: a file, made when it is first needed, or the URL of a PostgreSQL database such as
	// postgres://shop@db.example/glossladder. Empty: none are kept, and JobService says so.
	Data string
	// EventSource says whose events webhooks are told, as CloudEvents have it: a URI-reference such as "/shops/main", that no
	// other shop has which tells the same receiver. Empty: "/glossladder".
	EventSource string
	// WebhookTimeout is how long a receiver may take to answer, up to two minutes. Zero: 20 s.
	WebhookTimeout time.Duration
	// WebhookWaits are those after each try in vain; when they are used up an event is given up. Empty: as Standard Webhooks
	// propose, from 5 s to a day, over three days.
	WebhookWaits []time.Duration
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
		complaints = append(complaints, o.checkListen())
	}
	if o.Metrics != "" {
		complaints = append(complaints, checkLoopback("metrics", o.Metrics, "127.0.0.1:9090"))
		if o.Listen == "" {
			complaints = append(complaints, errors.New("metrics are of a service that listens; set Options.Listen"))
		}
	}
	complaints = append(complaints, o.pace().Check())
	if source, err := url.Parse(o.EventSource); err != nil || source.String() != o.EventSource {
		complaints = append(complaints, fmt.Errorf("event source %q is no URI-reference; write it as /shops/main", o.EventSource))
	}
	if info, err := os.Stat(o.Data); err == nil && info.IsDir() && o.Data != "" {
		complaints = append(complaints, fmt.Errorf("data %s is a folder; name a file in it, such as %s", o.Data, filepath.Join(o.Data, "jobs.db")))
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

// pace is how patient webhooks are.
func (o Options) pace() webhook.Pace {
	return webhook.Pace{Timeout: o.WebhookTimeout, Waits: o.WebhookWaits}
}

// remembers says whether a start whose rules folder does not load, or is not there, may fall back on an earlier set.
func (o Options) remembers() bool { return o.Listen != "" && o.StateDir != "" }

// checkListen lets the service be reached from other machines once somebody could show a key.
func (o Options) checkListen() error {
	beyond, err := reachesBeyond("listen", o.Listen, "127.0.0.1:7070")
	if err != nil || !beyond {
		return err
	}
	if o.StateDir == "" {
		return fmt.Errorf("listen address %q reaches beyond this machine, which needs a state folder that keeps access keys; leave the state folder as it is, or listen on 127.0.0.1", o.Listen)
	}
	opens, err := o.access().Opens(time.Now())
	if err == nil && !opens {
		err = fmt.Errorf("listen address %q reaches beyond this machine, and nobody has an access key; pair a phone with: glossladder serve --lan, make a key with: glossladder key add NAME, or listen on 127.0.0.1", o.Listen)
	}
	return err
}

// checkLoopback is for what asks no caller for a key.
func checkLoopback(what, address, example string) error {
	beyond, err := reachesBeyond(what, address, example)
	if beyond {
		return fmt.Errorf("%s address %q reaches beyond this machine, and no caller is asked for a key there; use 127.0.0.1, and put a proxy that does in front", what, address)
	}
	return err
}

// reachesBeyond says whether other machines can call an address.
func reachesBeyond(what, address, example string) (bool, error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return false, fmt.Errorf("%s address %q: give host and port, such as %s", what, address, example)
	}
	ip := net.ParseIP(host)
	return host != "localhost" && (ip == nil || !ip.IsLoopback()), nil
}
