package rpc

import (
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// mostAnswered is how large an answer grows: callers take 4 MiB unless they are told otherwise.
const mostAnswered = 3 << 20

// fitting are the first events that fit into one answer, one at least.
func fitting(events []*glossladderv1.JobEvent, most int) []*glossladderv1.JobEvent {
	size := 0
	for i, e := range events {
		if size += proto.Size(e); size > most && i > 0 {
			return events[:i]
		}
	}
	return events
}

// slim leaves the facts as seen out of decisions that would not fit into an answer with them. They stay on record, and in what
// is exported.
func slim(events []*glossladderv1.JobEvent, most int) {
	size := 0
	for _, e := range events {
		size += proto.Size(e)
	}
	if size <= most {
		return
	}
	for _, e := range events {
		if d := e.GetDecision(); d != nil {
			d.Sheets = nil
		}
	}
}
