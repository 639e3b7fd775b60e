package webhook

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The attributes of the example of CloudEvents 1.0, section "Example" of its JSON event format.
func TestStructuredEvent(t *testing.T) {
	event := Event{
		ID: "1234-1234-1234", Source: "/mycontext/subcontext", Type: "com.example.someevent", Subject: "jobs/7",
		Time: time.Date(2018, 4, 5, 17, 31, 0, 0, time.FixedZone("", 3600)), Data: json.RawMessage(`{"ready":true}`),
	}
	body, err := event.Structured()
	require.NoError(t, err)
	assert.JSONEq(t, `{
		"specversion": "1.0", "id": "1234-1234-1234", "source": "/mycontext/subcontext", "type": "com.example.someevent",
		"subject": "jobs/7", "time": "2018-04-05T16:31:00Z", "datacontenttype": "application/json", "data": {"ready": true}
	}`, string(body))

	bare, err := Event{ID: "1", Source: "/s", Type: "t"}.Structured()
	require.NoError(t, err)
	assert.JSONEq(t, `{"specversion": "1.0", "id": "1", "source": "/s", "type": "t"}`, string(bare))
}

func TestEventsThatCannotBe(t *testing.T) {
	good := Event{ID: "1", Source: "/s", Type: "t"}
	for _, row := range []struct {
		change func(*Event)
		says   string
	}{
		{func(e *Event) { e.ID = "" }, "event has no id"},
		{func(e *Event) { e.Source = "" }, "event has no source"},
		{func(e *Event) { e.Type = "" }, "event has no type"},
		{func(e *Event) { e.Data = json.RawMessage(`{`) }, "event data is not JSON"},
		{func(e *Event) { e.Source = "%zz" }, "no URI-reference"},
	} {
		event := good
		row.change(&event)
		_, err := event.Structured()
		require.ErrorContains(t, err, row.says)
	}
}
