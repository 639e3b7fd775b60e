package httpapi_test

import (
	"context"
	"net/http"
	"testing"

	"connectrpc.com/connect"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Connect's own client is the judge of Connect and gRPC-Web; grpc-go's of gRPC; JSON is read by the rules of protobuf.
func TestEveryProtocolOnTheOnePortGivesTheSameAnswer(t *testing.T) {
	address := serve(t)
	ctx := context.Background()
	var found glossladderv1.Inspection
	require.NoError(t, protojson.Unmarshal([]byte(inspection), &found))
	request := &glossladderv1.RecommendRequest{Inspection: &found}

	conn, err := grpc.NewClient(address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close()) }()
	want, err := glossladderv1.NewAdvisorServiceClient(conn).Recommend(ctx, request)
	require.NoError(t, err)
	require.NotEmpty(t, want.GetRecommendation().GetPanels())

	for name, opts := range map[string][]connect.ClientOption{
		"Connect": nil, "Connect with JSON": {connect.WithProtoJSON()}, "Connect, packed": {connect.WithSendGzip()},
		"gRPC-Web": {connect.WithGRPCWeb()}, "gRPC-Web, packed": {connect.WithGRPCWeb(), connect.WithSendGzip()},
	} {
		t.Run(name, func(t *testing.T) {
			client := connect.NewClient[glossladderv1.RecommendRequest, glossladderv1.RecommendResponse](
				http.DefaultClient, "http://"+address+glossladderv1.AdvisorService_Recommend_FullMethodName, opts...)
			got, err := client.CallUnary(ctx, connect.NewRequest(request))
			require.NoError(t, err)
			assert.True(t, proto.Equal(want, got.Msg))

			_, err = client.CallUnary(ctx, connect.NewRequest(&glossladderv1.RecommendRequest{}))
			assert.Equal(t, connect.CodeInvalidArgument, connect.CodeOf(err))
			var told *connect.Error
			require.ErrorAs(t, err, &told)
			require.Len(t, told.Details(), 1)
			detail, err := told.Details()[0].Value()
			require.NoError(t, err)
			assert.Equal(t, "inspection", detail.(*errdetails.BadRequest).GetFieldViolations()[0].GetField())
		})
	}
	t.Run("JSON", func(t *testing.T) {
		got := call(t, http.MethodPost, "http://"+address+"/v1:recommend", `{"inspection": `+inspection+`}`)
		require.Equal(t, http.StatusOK, got.status, string(got.text))
		var read glossladderv1.RecommendResponse
		require.NoError(t, protojson.Unmarshal(got.text, &read))
		assert.True(t, proto.Equal(want, &read))
	})
	t.Run("JSON by the method's name, as Connect without its header", func(t *testing.T) {
		got := call(t, http.MethodPost, "http://"+address+glossladderv1.AdvisorService_Recommend_FullMethodName, `{"inspection": `+inspection+`}`,
			"Content-Type", "application/json; charset=utf-8")
		require.Equal(t, http.StatusOK, got.status, string(got.text))
		var read glossladderv1.RecommendResponse
		require.NoError(t, protojson.Unmarshal(got.text, &read))
		assert.True(t, proto.Equal(want, &read))
	})
}

func TestAStreamComesOverConnectAndGRPCWeb(t *testing.T) {
	address := serve(t)
	base := "http://" + address
	require.Equal(t, http.StatusOK, call(t, http.MethodPost, base+"/v1/vehicles?vehicle_id=estate", `{"label": "invented"}`).status)
	require.Equal(t, http.StatusOK, call(t, http.MethodPost, base+"/v1/jobs?job_id=spring", `{"vehicle": "vehicles/estate"}`).status)
	require.Equal(t, http.StatusOK, call(t, http.MethodPost, base+"/v1/jobs/spring:cancel", "").status)
	for name, opts := range map[string][]connect.ClientOption{"Connect": {connect.WithProtoJSON()}, "gRPC-Web": {connect.WithGRPCWeb()}} {
		t.Run(name, func(t *testing.T) {
			client := connect.NewClient[glossladderv1.WatchJobRequest, glossladderv1.WatchJobResponse](
				http.DefaultClient, base+glossladderv1.JobService_WatchJob_FullMethodName, opts...)
			stream, err := client.CallServerStream(context.Background(), connect.NewRequest(&glossladderv1.WatchJobRequest{Name: "jobs/spring"}))
			require.NoError(t, err)
			count := 0
			for stream.Receive() {
				count++
			}
			require.NoError(t, stream.Err())
			assert.Equal(t, 2, count, "booked and cancelled, then the end")
		})
	}
}

func TestGRPCErrorsKeepTheirWordsOverHTTP(t *testing.T) {
	address := serve(t)
	conn, err := grpc.NewClient(address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close()) }()
	_, err = glossladderv1.NewRulesServiceClient(conn).GetRule(context.Background(), &glossladderv1.GetRuleRequest{Table: "start", RuleId: "none-such"})
	require.Equal(t, codes.NotFound, status.Code(err))
	got := call(t, http.MethodGet, "http://"+address+"/v1/ruleTables/start/rules/none-such", "")
	assert.Equal(t, http.StatusNotFound, got.status)
	assert.Equal(t, status.Convert(err).Message(), got.json(t)["message"])
	assert.InDelta(t, float64(codes.NotFound), got.json(t)["code"], 0)
}
