package access

import (
	"context"
	"strings"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/peer"
	"google.golang.org/grpc/status"
	"google.golang.org/grpc/tap"
)

// inProcess is the network of connections in memory, which only this program itself can make.
const inProcess = "bufconn"

// Tap looks at each gRPC call before its method is looked for, so that a stranger does not even learn which there are. It is for
// [google.golang.org/grpc.InTapHandle], and holds nothing up.
func (g *Gate) Tap(ctx context.Context, info *tap.Info) (context.Context, error) {
	who, ok := peer.FromContext(ctx)
	if !ok {
		return ctx, status.Error(codes.Unauthenticated, "a caller without an address is not answered")
	}
	if who.Addr.Network() == inProcess {
		return ctx, nil
	}
	from, ok := who.Addr.(caller)
	switch {
	case !ok:
		return ctx, status.Error(codes.Unauthenticated, "a caller without an address is not answered")
	case from.here():
		return ctx, nil
	case !from.private():
		return ctx, status.Error(codes.Unauthenticated, "from another machine, call over TLS and with an access key; revoke a key that was sent like this")
	}
	if call, ok := g.admit(ctx, bearer(info.Header.Get("authorization"))); ok {
		return call, nil
	}
	return ctx, status.Error(codes.Unauthenticated, unpaired)
}

// unpaired is what a caller without a key that is good is told.
const unpaired = "this needs an access key that is in force, as authorization: Bearer KEY; the service's machine makes one with: glossladder key add NAME"

// bearer is the key in an authorization header (RFC 6750, section 2.1), "" if there is none, or more than one.
func bearer(said []string) string {
	if len(said) != 1 {
		return ""
	}
	scheme, key, _ := strings.Cut(said[0], " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(key)
}
