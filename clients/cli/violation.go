package cli

import (
	"slices"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// allMistakes puts the service's complaints about a request with those about its files, each at the place in the file that
// the field came from. When the files have problems of their own, only complaints about fields that were read well count:
// a field that could not be read is missing to the service, and it would be blamed twice. Without any mistake of the files
// it returns err as it is.
func allMistakes(problems strictyaml.Problems, places *intake.Places, err error) error {
	clean := len(problems) == 0
	for _, violation := range violationsOf(err) {
		at, exact, _ := places.Of(violation.GetField())
		if !clean && (!exact || takenAt(problems, at)) {
			continue
		}
		problems = append(problems, strictyaml.Problem{
			File: at.File, Pos: at.Pos,
			Message: strings.TrimSuffix(strings.TrimPrefix(violation.GetField()+": "+violation.GetDescription(), ": "), "."),
		})
	}
	if len(problems) == 0 {
		return err
	}
	problems.Sort()
	return &outcome{code: failed, err: problems.Capped()}
}

func violationsOf(err error) []*errdetails.BadRequest_FieldViolation {
	st, ok := status.FromError(err)
	if err == nil || !ok {
		return nil
	}
	var all []*errdetails.BadRequest_FieldViolation
	for _, detail := range st.Details() {
		if bad, ok := detail.(*errdetails.BadRequest); ok {
			all = append(all, bad.GetFieldViolations()...)
		}
	}
	return all
}

func takenAt(problems strictyaml.Problems, at intake.Place) bool {
	return slices.ContainsFunc(problems, func(p strictyaml.Problem) bool { return p.File == at.File && p.Pos == at.Pos })
}
