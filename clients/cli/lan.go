package cli

import (
	"context"
	"fmt"
	"net"
	"net/netip"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/service/access"
	"github.com/glossladder/glossladder/service/app"
)

// everywhere is where a service listens that phones are to reach.
const everywhere = ":7070"

// openLAN lets other machines reach the service, and a phone be paired.
func (p *program) openLAN(cmd *cobra.Command, opts *app.Options) (access.Pairing, error) {
	if opts.StateDir == "" {
		return access.Pairing{}, &usageError{"--lan keeps its access keys in the state folder; leave --state out, or name a folder"}
	}
	if !cmd.Flags().Changed("listen") {
		opts.Listen = everywhere
	} else if onlyHere(opts.Listen) {
		return access.Pairing{}, &usageError{"--lan is for other machines, and --listen " + opts.Listen + " is for this one only; leave one of them out"}
	}
	return app.AccessFolder(opts.StateDir).OpenPairing(cmd.Context(), time.Now())
}

// onlyHere says whether an address names this machine as it names itself.
func onlyHere(address string) bool {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		host = address
	}
	ip, err := netip.ParseAddr(strings.Trim(host, "[]"))
	return host == "localhost" || err == nil && ip.Unmap().IsLoopback()
}

// reachedAt are the addresses by which this machine and others call a service that listens on bound, the likeliest first.
func reachedAt(bound string) (here string, others []string) {
	host, port, err := net.SplitHostPort(bound)
	if err != nil {
		return bound, nil
	}
	ip, err := netip.ParseAddr(host)
	switch {
	case err != nil || ip.IsLoopback():
		return bound, nil
	case !ip.IsUnspecified():
		return "", []string{bound}
	}
	for _, ip := range access.LANAddresses() {
		others = append(others, net.JoinHostPort(ip.String(), port))
	}
	return net.JoinHostPort("127.0.0.1", port), others
}

// showPairing tells how a phone gets its key.
func (p *program) showPairing(pairing access.Pairing, addresses []string) error {
	if len(addresses) == 0 {
		fmt.Fprintf(p.out, "\nThis machine is in no network that a phone could be in. The pairing code is %s.\n", pairing.Code)
		return nil
	}
	picture, err := qrCode(fmt.Sprintf("https://%s/pair#%s", addresses[0], strings.ReplaceAll(pairing.Code, "-", "")), p.wantsColor())
	if err != nil {
		return err
	}
	fmt.Fprintf(p.out, "\nPair a phone or a tablet in the same network: scan this, or open https://%s/pair\nand type the code %s, good once, until %s.\n\n%s\n",
		addresses[0], pairing.Code, pairing.Until.Local().Format("15:04"), picture)
	if len(addresses) > 1 {
		fmt.Fprintf(p.out, "Other addresses of this machine: %s\n", strings.Join(addresses[1:], " "))
	}
	return nil
}

// welcomeOthers says how other machines get in.
func (p *program) welcomeOthers(service *app.App, addresses []string, pairing access.Pairing) error {
	if pairing.Code != "" {
		if err := p.showPairing(pairing, addresses); err != nil {
			return err
		}
	}
	print, err := service.Fingerprint()
	if err != nil {
		return err
	}
	fmt.Fprintf(p.out, `The browser warns once that nobody it knows vouches for the certificate: this machine made it. Go on only if the browser
shows this fingerprint (SHA-256):
%s
Other machines need a key: glossladder key add NAME. Which there are: glossladder key list. Another phone: glossladder key pair.
`, indent(print))
	return nil
}

// indent sets a fingerprint in two lines, as browsers do.
func indent(print string) string {
	half := len(print) / 2
	return "  " + print[:half+1] + "\n  " + print[half+1:]
}

func (p *program) pairPhone() *cobra.Command {
	var at string
	cmd := &cobra.Command{
		Use:   "pair",
		Short: "Show a code that gives one phone or tablet a key",
		Long: "Shows a one-time code, good for ten minutes, for a service that was started with serve --lan or listens on an address of a\n" +
			"network. An earlier code is good no more.",
		Example: "  glossladder key pair\n  glossladder key pair --at 192.168.1.20:8443",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			return p.withKeys(cmd, func(ctx context.Context, folder access.Folder) error {
				pairing, err := folder.OpenPairing(ctx, time.Now())
				if err != nil {
					return err
				}
				_, addresses := reachedAt("0.0.0.0" + everywhere)
				if at != "" {
					addresses = []string{at}
				}
				return p.showPairing(pairing, addresses)
			})
		}),
	}
	cmd.Flags().StringVar(&at, "at", "", "host:port that the phone reaches the service at (left out: this machine in its network, port 7070)")
	return p.keysIn(cmd)
}
