package app_test

import (
	"context"
	"net"
	"testing"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// BenchmarkRecommendCall is one call over the loopback interface, beside a server that answers the same bytes to the same
// bytes without looking at them: the difference is what validation, conversion and deciding cost.
func BenchmarkRecommendCall(b *testing.B) {
	a, err := app.New(app.Options{Listen: "127.0.0.1:0"})
	require.NoError(b, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	b.Cleanup(func() {
		cancel()
		require.NoError(b, <-ended)
	})
	conn := connect(b, a.Addr())
	request := &glossladderv1.RecommendRequest{Inspection: marked()}
	response, err := glossladderv1.NewAdvisorServiceClient(conn).Recommend(ctx, request)
	require.NoError(b, err)
	asked, err := proto.Marshal(request)
	require.NoError(b, err)
	answered, err := proto.Marshal(response)
	require.NoError(b, err)

	b.Run("recommend", func(b *testing.B) {
		client := glossladderv1.NewAdvisorServiceClient(conn)
		b.ReportAllocs()
		for b.Loop() {
			_, err := client.Recommend(ctx, request)
			require.NoError(b, err)
		}
	})
	b.Run("echo of the same bytes", func(b *testing.B) {
		echo := connect(b, serveEcho(b, answered), grpc.WithDefaultCallOptions(grpc.ForceCodec(bytesCodec{})))
		b.ReportAllocs()
		for b.Loop() {
			var got []byte
			require.NoError(b, echo.Invoke(ctx, "/echo/Say", asked, &got))
			require.Len(b, got, len(answered))
		}
	})
}

func connect(b *testing.B, address string, opts ...grpc.DialOption) *grpc.ClientConn {
	b.Helper()
	conn, err := grpc.NewClient(address, append(opts, grpc.WithTransportCredentials(insecure.NewCredentials()))...)
	require.NoError(b, err)
	b.Cleanup(func() { require.NoError(b, conn.Close()) })
	return conn
}

// serveEcho answers every call with the same bytes.
func serveEcho(b *testing.B, answer []byte) string {
	b.Helper()
	server := grpc.NewServer(grpc.ForceServerCodec(bytesCodec{}), grpc.UnknownServiceHandler(func(_ any, stream grpc.ServerStream) error {
		var asked []byte
		if err := stream.RecvMsg(&asked); err != nil {
			return err
		}
		return stream.SendMsg(answer)
	}))
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(b, err)
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	b.Cleanup(func() {
		server.Stop()
		require.NoError(b, <-ended)
	})
	return listener.Addr().String()
}

// bytesCodec passes bytes through as they are.
type bytesCodec struct{}

func (bytesCodec) Marshal(v any) ([]byte, error) { return v.([]byte), nil }
func (bytesCodec) Unmarshal(data []byte, v any) error {
	*v.(*[]byte) = append([]byte(nil), data...)
	return nil
}
func (bytesCodec) Name() string { return "bytes" }
