package rpc

import (
	"fmt"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// bayBookedIn reads bay time that is given; nil when none is.
func bayBookedIn(m *glossladderv1.BayBooking, field string, wrong *faults) *history.Bay {
	if m == nil {
		return nil
	}
	return &history.Bay{ID: m.GetBay(), Blocks: blocksIn(m.GetBlocks(), field+".blocks", wrong)}
}

func blocksIn(all []*glossladderv1.BayBlock, field string, wrong *faults) []history.BayBlock {
	out := make([]history.BayBlock, len(all))
	for i, m := range all {
		wrong.time(fmt.Sprintf("%s[%d].start_time", field, i), m.GetStartTime())
		wrong.time(fmt.Sprintf("%s[%d].end_time", field, i), m.GetEndTime())
		out[i] = history.BayBlock{Piece: m.GetWhat()}
		if m.GetStartTime() != nil {
			out[i].Start = history.Moment(m.GetStartTime().AsTime())
		}
		if m.GetEndTime() != nil {
			out[i].End = history.Moment(m.GetEndTime().AsTime())
		}
	}
	return out
}

func bayBookedOut(bay *history.Bay) *glossladderv1.BayBooking {
	if bay == nil {
		return nil
	}
	out := &glossladderv1.BayBooking{Bay: bay.ID}
	for _, block := range bay.Blocks {
		out.Blocks = append(out.Blocks, &glossladderv1.BayBlock{
			What: block.Piece, StartTime: timestamppb.New(block.Start), EndTime: timestamppb.New(block.End),
		})
	}
	return out
}
