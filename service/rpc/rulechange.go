package rpc

import (
	"fmt"

	"google.golang.org/genproto/googleapis/rpc/errdetails"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/rulefolder"
)

// RequestError is a field of a request that does not fit the others. Constraints of single fields are told by [Validate].
type RequestError struct{ Field, Says string }

func (e *RequestError) Error() string { return e.Field + ": " + e.Says }

func (e *RequestError) details() *errdetails.BadRequest {
	return &errdetails.BadRequest{FieldViolations: []*errdetails.BadRequest_FieldViolation{{
		Field: e.Field, Description: e.Says, Reason: "DOES_NOT_FIT",
	}}}
}

// NotTextError says that a file cannot be sent, since it is no text.
type NotTextError struct{ Name string }

func (e *NotTextError) Error() string {
	return e.Name + " is not UTF-8, so it cannot be sent as text; save it as UTF-8 where it stands"
}

func creation(file *glossladderv1.RuleFile, field string) (rulefolder.Change, error) {
	if file.GetEtag() != "" {
		return rulefolder.Change{}, &RequestError{field + ".etag", "a new file has none; leave it out, or update the file that is there"}
	}
	return rulefolder.Change{Name: file.GetName(), Text: []byte(file.GetText())}, nil
}

func replacement(file *glossladderv1.RuleFile, field string) (rulefolder.Change, error) {
	if file.GetEtag() == "" {
		return rulefolder.Change{}, &RequestError{field + ".etag", "send the etag of the text that was read, so that nobody else's edit is lost"}
	}
	return rulefolder.Change{Name: file.GetName(), Etag: file.GetEtag(), Text: []byte(file.GetText())}, nil
}

func changesIn(edits []*glossladderv1.RuleFileEdit) ([]rulefolder.Change, error) {
	var out []rulefolder.Change
	for i, edit := range edits {
		at := fmt.Sprintf("edits[%d]", i)
		var change rulefolder.Change
		var err error
		switch {
		case edit.GetCreate() != nil:
			change, err = creation(edit.GetCreate(), at+".create")
		case edit.GetUpdate() != nil:
			change, err = replacement(edit.GetUpdate(), at+".update")
		default:
			change, err = replacement(edit.GetDelete(), at+".delete")
			change.Text, change.Delete = nil, true
		}
		if err != nil {
			return nil, err
		}
		out = append(out, change)
	}
	return out, nil
}
