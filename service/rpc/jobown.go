package rpc

import (
	"errors"
	"maps"

	"google.golang.org/protobuf/types/known/structpb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
)

// checkOwn refuses an inspection that is to be recorded with facts of the shop's own that the rules in force do not declare. At is
// the inspection's field in the request.
func (a *asking) checkOwn(m *glossladderv1.Inspection, at string) error {
	input, ok := errors.AsType[*advisor.InputError](a.rules.Advisor.CheckOwn(a.rules.Instruments.inspection(m)))
	if !ok {
		return nil
	}
	var wrong faults
	for _, trouble := range input.Troubles {
		wrong.add(at+"."+trouble.Field, trouble.Says)
	}
	return wrong.asError()
}

// stillOwn are the values on record that the rules in force still declare. A shop that gives up a fact of its own, or narrows it,
// goes on with the jobs that have it on record.
func (v *visit) stillOwn(values map[string]*structpb.Value) map[string]*structpb.Value {
	fitting := v.rules.Advisor.Fitting(ownIn(values))
	if len(fitting) == len(values) {
		return values
	}
	out := maps.Clone(values)
	maps.DeleteFunc(out, func(name string, _ *structpb.Value) bool { _, fits := fitting[name]; return !fits })
	return out
}
