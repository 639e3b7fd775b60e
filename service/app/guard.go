package app

import (
	"context"
	"net"
	"path/filepath"

	"github.com/glossladder/glossladder/service/access"
)

// sharedReports begins the paths of report links.
const sharedReports = "/r/"

// access is where keys are kept.
func (o Options) access() access.Folder { return AccessFolder(o.StateDir) }

// AccessFolder is where a service with this state folder keeps access keys and its certificate.
func AccessFolder(stateDir string) access.Folder { return access.At(filepath.Join(stateDir, "access")) }

// guard puts a gate before the port if other machines can reach it.
func (a *App) guard(opts Options) error {
	if a.listener == nil {
		return nil
	}
	if tcp, ok := a.listener.Addr().(*net.TCPAddr); ok && tcp.IP.IsLoopback() {
		return nil
	}
	settings := access.Options{Log: a.log}
	if opts.ShareReports {
		settings.Open = []string{sharedReports}
	}
	gate, err := access.NewGate(context.Background(), opts.access(), settings)
	if err != nil {
		return err
	}
	a.gate, a.listener = gate, gate.Listener(a.listener)
	return nil
}

// Fingerprint is the SHA-256 of the certificate as browsers show it, "" if the service is for this machine only.
func (a *App) Fingerprint() (string, error) {
	if a.gate == nil {
		return "", nil
	}
	return a.gate.Fingerprint()
}
