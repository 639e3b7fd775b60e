package httpapi

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// checkQuery finds parameters that the method does not have: a misspelt validate_only must not write. It is nil when all is
// well; a path that is not known is for others to tell.
func (all routes) checkQuery(r *http.Request) *errdetails.BadRequest {
	if r.URL.RawQuery == "" {
		return nil
	}
	to := slices.IndexFunc(all, func(one route) bool { return one.method == r.Method && one.path.MatchString(r.URL.Path) })
	if to < 0 {
		return nil
	}
	given, err := url.ParseQuery(r.URL.RawQuery)
	if err != nil {
		return &errdetails.BadRequest{FieldViolations: []*errdetails.BadRequest_FieldViolation{violation("query", "cannot be read: "+err.Error())}}
	}
	bad := &errdetails.BadRequest{}
	for name, values := range given {
		field, complaint := all[to].parameter(name)
		if complaint == "" {
			complaint = wrongValue(field, values)
		}
		if complaint != "" {
			bad.FieldViolations = append(bad.FieldViolations, violation(name, complaint))
		} else if isMask(field) {
			given[name] = camelPaths(values)
		}
	}
	if len(bad.FieldViolations) > 0 {
		slices.SortFunc(bad.FieldViolations, func(a, b *errdetails.BadRequest_FieldViolation) int {
			return strings.Compare(a.GetField(), b.GetField())
		})
		return bad
	}
	r.URL.RawQuery = given.Encode()
	return nil
}

func violation(field, says string) *errdetails.BadRequest_FieldViolation {
	return &errdetails.BadRequest_FieldViolation{Field: field, Description: says, Reason: "PARAMETER"}
}

// parameter finds the field that a parameter names, or says why there is none.
func (one route) parameter(name string) (field protoreflect.FieldDescriptor, complaint string) {
	if one.body {
		return nil, "this call takes everything in its body"
	}
	message := one.input
	for part := range strings.SplitSeq(name, ".") {
		if message == nil {
			return nil, "there is no such parameter"
		}
		field = message.Fields().ByName(protoreflect.Name(part))
		if field == nil {
			field = message.Fields().ByJSONName(part)
		}
		if field == nil {
			return nil, "there is no such parameter; " + names(one.input)
		}
		message = field.Message()
	}
	if message != nil && !isMask(field) && message.FullName() != "google.protobuf.Timestamp" {
		return nil, "it has parts, and is sent in the body"
	}
	return field, ""
}

// wrongValue says which value cannot be one of the field's, or "".
func wrongValue(field protoreflect.FieldDescriptor, values []string) string {
	if len(values) > 1 && !field.IsList() {
		return "it is given more than once"
	}
	for _, value := range values {
		switch field.Kind() {
		case protoreflect.BoolKind:
			if value != "true" && value != "false" {
				return fmt.Sprintf("%q is neither true nor false", value)
			}
		case protoreflect.Int32Kind, protoreflect.Int64Kind:
			if _, err := strconv.ParseInt(value, 10, 64); err != nil {
				return fmt.Sprintf("%q is no whole number", value)
			}
		case protoreflect.EnumKind:
			if field.Enum().Values().ByName(protoreflect.Name(value)) == nil {
				return fmt.Sprintf("%q is none of %s", value, wordsOf(field.Enum()))
			}
		}
	}
	return ""
}

func wordsOf(enum protoreflect.EnumDescriptor) string {
	all := make([]string, enum.Values().Len())
	for i := range all {
		all[i] = string(enum.Values().Get(i).Name())
	}
	return strings.Join(all[1:], ", ") // the first is for what is not given
}

func names(message protoreflect.MessageDescriptor) string {
	all := make([]string, message.Fields().Len())
	for i := range all {
		all[i] = string(message.Fields().Get(i).Name())
	}
	if len(all) == 0 {
		return "this call takes none"
	}
	return fmt.Sprintf("the fields of the request are %s", strings.Join(all, ", "))
}

func isMask(field protoreflect.FieldDescriptor) bool {
	return field.Message() != nil && field.Message().FullName() == "google.protobuf.FieldMask"
}

// camelPaths gives masks the form that JSON has for them, whatever way their fields are written.
func camelPaths(masks []string) []string {
	out := make([]string, len(masks))
	for i, mask := range masks {
		var b strings.Builder
		up := false
		for _, letter := range mask {
			switch {
			case letter == '_':
				up = true
				continue
			case up && letter >= 'a' && letter <= 'z':
				letter += 'A' - 'a'
			}
			up = false
			b.WriteRune(letter)
		}
		out[i] = b.String()
	}
	return out
}
