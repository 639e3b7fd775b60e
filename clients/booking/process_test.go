package booking_test

import (
	"context"
	"io"
	"net/http"
	"strings"
	"testing"

	"connectrpc.com/connect"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/protobuf/encoding/protojson"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Clients that others wrote, each of its own protocol, against the service as a process, at one address.
func TestEveryProtocolReachesTheProcess(t *testing.T) {
	base := serve(t)
	ctx, ask := context.Background(), &glossladderv1.ListFactsRequest{Prefix: "film."}

	conn, err := grpc.NewClient(strings.TrimPrefix(base, "http://"), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close()) }()
	native, err := glossladderv1.NewAdvisorServiceClient(conn).ListFacts(ctx, ask)
	require.NoError(t, err)
	require.NotEmpty(t, native.GetFacts())

	for name, opts := range map[string][]connect.ClientOption{"Connect": nil, "gRPC-Web": {connect.WithGRPCWeb()}} {
		client := connect.NewClient[glossladderv1.ListFactsRequest, glossladderv1.ListFactsResponse](
			http.DefaultClient, base+glossladderv1.AdvisorService_ListFacts_FullMethodName, opts...)
		got, err := client.CallUnary(ctx, connect.NewRequest(ask))
		require.NoError(t, err, name)
		assert.Len(t, got.Msg.GetFacts(), len(native.GetFacts()), name)
	}

	answer, err := http.Get(base + "/v1/facts?prefix=film.")
	require.NoError(t, err)
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	require.NoError(t, answer.Body.Close())
	var plain glossladderv1.ListFactsResponse
	require.NoError(t, protojson.Unmarshal(text, &plain))
	assert.Len(t, plain.GetFacts(), len(native.GetFacts()))
}
