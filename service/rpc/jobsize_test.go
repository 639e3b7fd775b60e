package rpc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// decided is an event of about so many bytes, nearly all of them facts as seen.
func decided(size int) *glossladderv1.JobEvent {
	sheet := &glossladderv1.FactSheet{About: string(make([]byte, size))}
	return &glossladderv1.JobEvent{What: &glossladderv1.JobEvent_Decision{Decision: &glossladderv1.Decision{RuleSet: "set", Sheets: []*glossladderv1.FactSheet{sheet}}}}
}

func TestAPageOfEventsEndsWhereItGrowsTooLarge(t *testing.T) {
	events := []*glossladderv1.JobEvent{decided(400), decided(400), decided(400)}
	assert.Len(t, fitting(events, 1000), 2)
	assert.Len(t, fitting(events, 2000), 3)
	assert.Len(t, fitting(events, 10), 1, "one always comes, or no page would lead on")
	assert.Empty(t, fitting(nil, 10))
}

func TestAnAnswerThatGrowsTooLargeLeavesTheFactsAsSeenOut(t *testing.T) {
	events := []*glossladderv1.JobEvent{decided(400), decided(400)}
	slim(events, 1000)
	assert.Len(t, events[0].GetDecision().GetSheets(), 1)
	slim(events, 500)
	for _, e := range events {
		assert.Empty(t, e.GetDecision().GetSheets())
		assert.Equal(t, "set", e.GetDecision().GetRuleSet())
		assert.Less(t, proto.Size(e), 20)
	}
}
