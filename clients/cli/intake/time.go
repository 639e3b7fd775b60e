package intake

import (
	"fmt"
	"strconv"
	"time"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// timeLayouts are how people may write a time, from the one that needs no guess to the plain day. Without a zone a time is
// this machine's.
var timeLayouts = [...]string{time.RFC3339Nano, "2006-01-02 15:04:05", "2006-01-02T15:04:05", "2006-01-02 15:04", "2006-01-02T15:04", time.DateOnly}

// Time reads a time as people write it. A plain day is its beginning. It is of this machine's zone unless it says another.
func Time(text string) (time.Time, error) {
	return TimeIn(text, time.Local) //nolint:gosmopolitan // people write the time of their clock
}

// TimeIn reads a time as people write it, in a zone unless it says another.
func TimeIn(text string, zone *time.Location) (time.Time, error) {
	for _, layout := range timeLayouts {
		if at, err := time.ParseInLocation(layout, text, zone); err == nil {
			return at, nil
		}
	}
	return time.Time{}, fmt.Errorf("%s is no time; write 2026-11-25, 2026-11-25 14:30 or 2026-11-25T14:30:00Z", shown(text))
}

func isTime(field protoreflect.FieldDescriptor) bool {
	return field.Message() != nil && field.Message().FullName() == "google.protobuf.Timestamp"
}

func (r *reader) time(n *strictyaml.Node, into protoreflect.Message, field protoreflect.FieldDescriptor, path string) {
	r.keep(path, n)
	if !r.expect(n, strictyaml.Scalar, string(field.Name()), "") {
		return
	}
	at, err := Time(n.Text())
	if err != nil {
		r.complain(n, string(field.Name())+": "+err.Error(), "")
		return
	}
	into.Set(field, protoreflect.ValueOfMessage(timestamppb.New(at).ProtoReflect()))
}

// whole reads a whole number.
func whole(text string, bits int) (number int64, message, hint string) {
	number, err := strconv.ParseInt(text, 10, bits)
	if err != nil {
		return 0, shown(text) + " is not a whole number", "write it in digits, as 12"
	}
	return number, "", ""
}
