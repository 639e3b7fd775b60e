package rpc

import (
	"errors"
	"fmt"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// planStatus maps what can stand in the way of a plan; nil for all else.
func planStatus(err error) error {
	if room, ok := errors.AsType[*plan.NoRoomError](err); ok {
		return invalid((&RequestError{Field: "hours", Says: fmt.Sprintf(
			"%.1f h are too few: the least that these panels need is %.1f h, with nothing polished that may be left", float64(room.Minutes)/60, float64(room.Least)/60)}).details())
	}
	if dear, ok := errors.AsType[*workplan.DearError](err); ok {
		return invalid((&RequestError{Field: "price", Says: dear.Error()}).details())
	}
	if errors.Is(err, plan.ErrClosed) {
		return invalid((&RequestError{Field: "bay.opening", Says: err.Error()}).details())
	}
	_, shop := errors.AsType[*workplan.ShopError](err)
	_, figure := errors.AsType[*plan.FieldError](err)
	_, candidate := errors.AsType[*plan.CandidateError](err)
	_, limit := errors.AsType[*plan.LimitError](err)
	if shop || figure || candidate || limit {
		return status.Error(codes.FailedPrecondition, "the rule set in force cannot plan this: "+err.Error())
	}
	return nil
}
