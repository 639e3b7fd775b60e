package access_test

import (
	"context"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/emptypb"

	"github.com/glossladder/glossladder/service/access"
)

// called is a gRPC server behind a gate, called from another address.
func called(t *testing.T, caller string) (folder access.Folder, address string) {
	t.Helper()
	folder = access.At(t.TempDir())
	gate, err := access.NewGate(t.Context(), folder, access.Options{})
	require.NoError(t, err)
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address = listener.Addr().String()
	if caller != "" {
		listener = elsewhere{listener, caller}
	}
	server := grpc.NewServer(grpc.InTapHandle(gate.Tap))
	healthpb.RegisterHealthServer(server, health.NewServer())
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(gate.Listener(listener)) }()
	ctx, stop := context.WithCancel(context.Background())
	go gate.Watch(ctx)
	t.Cleanup(func() {
		stop()
		server.Stop()
		require.NoError(t, <-ended)
	})
	return folder, address
}

func dial(t *testing.T, address string, options ...grpc.DialOption) *grpc.ClientConn {
	t.Helper()
	conn, err := grpc.NewClient(address, options...)
	require.NoError(t, err)
	t.Cleanup(func() { _ = conn.Close() })
	return conn
}

// proof is what a client needs that has a key; told takes why a service is a stranger.
func proof(t *testing.T, key, address string, told *[]error) (*access.Credentials, []grpc.DialOption) {
	t.Helper()
	c, err := access.NewCredentials(key, "", address, func(why error) { *told = append(*told, why) })
	require.NoError(t, err)
	return c, []grpc.DialOption{grpc.WithTransportCredentials(credentials.NewTLS(c.TLS)), grpc.WithPerRPCCredentials(c)}
}

func check(ctx context.Context, conn *grpc.ClientConn) error {
	_, err := healthpb.NewHealthClient(conn).Check(ctx, &healthpb.HealthCheckRequest{})
	return err
}

func TestACallNeedsAKeyOverTLS(t *testing.T) {
	folder, address := called(t, "192.0.2.7")
	_, key, err := folder.Add(t.Context(), "laptop", time.Now())
	require.NoError(t, err)
	var told []error
	credential, options := proof(t, key, address, &told)
	withKey := dial(t, address, options...)
	require.NoError(t, check(t.Context(), withKey))
	assert.Empty(t, told)

	nobody := dial(t, address, grpc.WithTransportCredentials(credentials.NewTLS(credential.TLS)))
	err = check(t.Context(), nobody)
	assert.Equal(t, codes.Unauthenticated, status.Code(err))
	assert.ErrorContains(t, err, "glossladder key add")
	err = nobody.Invoke(t.Context(), "/none.Such/Method", &emptypb.Empty{}, &emptypb.Empty{})
	assert.Equal(t, codes.Unauthenticated, status.Code(err), "a stranger does not learn which methods there are")
	err = withKey.Invoke(t.Context(), "/none.Such/Method", &emptypb.Empty{}, &emptypb.Empty{})
	assert.Equal(t, codes.Unimplemented, status.Code(err))
	for name, said := range map[string][]string{
		"another key": {"Bearer " + strings.Replace(key, "_", "_a", 1)}, "another secret": {"Bearer " + swapped(key)}, "another scheme": {"Basic " + key},
		"the key alone": {key}, "two headers": {"Bearer " + key, "Bearer " + key},
	} {
		ctx := metadata.NewOutgoingContext(t.Context(), metadata.MD{"authorization": said})
		assert.Equal(t, codes.Unauthenticated, status.Code(check(ctx, nobody)), name)
	}

	plain := dial(t, address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	err = check(metadata.AppendToOutgoingContext(t.Context(), "authorization", "Bearer "+key), plain)
	assert.Equal(t, codes.Unauthenticated, status.Code(err), "a good key, for all to see")
	assert.ErrorContains(t, err, "revoke")
}

// swapped is a key with another secret.
func swapped(key string) string {
	parts := strings.Split(key, "_")
	if strings.HasPrefix(parts[2], "a") {
		parts[2] = "b" + parts[2][1:]
	} else {
		parts[2] = "a" + parts[2][1:]
	}
	return strings.Join(parts, "_")
}

func TestACallOfThisMachineNeedsNoKey(t *testing.T) {
	_, address := called(t, "")
	require.NoError(t, check(t.Context(), dial(t, address, grpc.WithTransportCredentials(insecure.NewCredentials()))))
}

func TestARevokedKeyEndsAStreamWithinASecond(t *testing.T) {
	folder, address := called(t, "192.0.2.7")
	key, text, err := folder.Add(t.Context(), "laptop", time.Now())
	require.NoError(t, err)
	_, options := proof(t, text, address, new([]error))
	conn := dial(t, address, options...)
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	stream, err := healthpb.NewHealthClient(conn).Watch(ctx, &healthpb.HealthCheckRequest{})
	require.NoError(t, err)
	_, err = stream.Recv()
	require.NoError(t, err)
	start := time.Now()
	_, err = folder.Revoke(t.Context(), key.ID)
	require.NoError(t, err)
	_, err = stream.Recv()
	require.Error(t, err)
	assert.Less(t, time.Since(start), time.Second)
	assert.Equal(t, codes.Unauthenticated, status.Code(check(t.Context(), conn)), "on the same connection")
}

func TestAKeyIsSentToNoServiceButItsOwn(t *testing.T) {
	_, address := called(t, "192.0.2.7")
	_, foreign, err := access.At(t.TempDir()).Add(t.Context(), "laptop", time.Now())
	require.NoError(t, err)
	var told []error
	_, options := proof(t, foreign, address, &told)
	err = check(t.Context(), dial(t, address, options...))
	assert.Equal(t, codes.Unavailable, status.Code(err))
	require.NotEmpty(t, told)
	var stranger *access.StrangerError
	require.ErrorAs(t, told[0], &stranger)
	assert.Equal(t, address, stranger.Address)
}

func TestACertificateFileMayBeTrustedInstead(t *testing.T) {
	r := reach(t, "192.0.2.7", access.Options{})
	_, key, err := r.folder.Add(t.Context(), "laptop", time.Now())
	require.NoError(t, err)
	c, err := access.NewCredentials(key, r.dir+"/certificate.pem", r.address, nil)
	require.NoError(t, err)
	require.NotNil(t, c.TLS.RootCAs)
	assert.False(t, c.TLS.InsecureSkipVerify)
	assert.True(t, c.RequireTransportSecurity())
	_, err = access.NewCredentials(key, r.dir+"/keys.json", r.address, nil)
	require.ErrorContains(t, err, "no certificate")
	_, err = access.NewCredentials(key, r.dir+"/none.pem", r.address, nil)
	require.ErrorContains(t, err, "certificates to trust")
	_, err = access.NewCredentials("secret", "", r.address, nil)
	require.ErrorIs(t, err, access.ErrNoKeyText)
}

// No text may be taken for a key that does not say what it is.
func FuzzNewCredentials(f *testing.F) {
	for _, seed := range []string{"", "gl_a_aaaaaaaaaaaaaaaaaaaaaaaaaa_b", "gl___", "gl_a_b_c_d", " gl_a_aaaaaaaaaaaaaaaaaaaaaaaaaa_b\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, said string) {
		c, err := access.NewCredentials(said, "", "192.0.2.1:1", nil)
		if err != nil {
			require.ErrorIs(t, err, access.ErrNoKeyText)
			return
		}
		header, err := c.GetRequestMetadata(t.Context())
		require.NoError(t, err)
		require.Equal(t, "Bearer "+strings.TrimSpace(said), header["authorization"])
	})
}
