package rpc

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// The collections of resource names.
const (
	vehicles = "vehicles"
	jobs     = "jobs"
)

// faults are what is wrong with a request, all told at once.
type faults []error

func (v *faults) add(field, says string) {
	*v = append(*v, &history.InputError{Field: field, Says: says})
}

func (v faults) asError() error { return errors.Join(v...) }

// id takes the id out of a resource name.
func (v *faults) id(field, collection, name string) string {
	id, ok := strings.CutPrefix(name, collection+"/")
	if !ok || history.CheckID(field, id) != nil {
		v.add(field, strconv.Quote(name)+" is no name; it is "+collection+"/ and an id of small letters, digits and single hyphens")
		return ""
	}
	return id
}

// etag reads an etag: the revision or sequence that it stands for. Without one it is 0.
func (v *faults) etag(field, etag string) int64 {
	if etag == "" {
		return 0
	}
	n, err := strconv.ParseInt(etag, 10, 64)
	if err != nil || n < 1 {
		v.add(field, strconv.Quote(etag)+" was not given by this service; send that of the last answer, or none")
	}
	return n
}

func etagOf(n int64) string { return strconv.FormatInt(n, 10) }

// mask says which fields are to be changed: those of the mask or, without one, those that are set.
func (v *faults) mask(mask *fieldmaskpb.FieldMask, set map[string]bool) map[string]bool {
	if len(mask.GetPaths()) == 0 {
		return set
	}
	change := map[string]bool{}
	for i, path := range mask.GetPaths() {
		switch _, known := set[path]; {
		case path == "*":
			for field := range set {
				change[field] = true
			}
		case known:
			change[path] = true
		default:
			names := slices.Sorted(maps.Keys(set))
			v.add("update_mask.paths["+strconv.Itoa(i)+"]", strconv.Quote(path)+" cannot be changed; what can is "+strings.Join(names, ", "))
		}
	}
	return change
}

// time checks a time of a request.
func (v *faults) time(field string, at *timestamppb.Timestamp) {
	if at == nil {
		return
	}
	if err := at.CheckValid(); err != nil {
		v.add(field, "is no time: years are 1 to 9999, nanos 0 to 999999999")
	}
}

// entryOf is what comes with a request. Without a request id one is made up, so that a store that loses its connection may
// send the call again and know it.
func (s *JobServer) entryOf(req proto.Message, m *glossladderv1.Entry) history.Entry {
	entry := history.Entry{Now: s.now(), RequestID: m.GetRequestId(), Print: printOf(req), By: m.GetRecordedBy(), TryOnly: m.GetValidateOnly()}
	if may, ok := req.(interface{ GetAllowOverlap() bool }); ok {
		entry.Overlap = may.GetAllowOverlap()
	}
	if at := m.GetHappenTime(); at != nil {
		entry.HappenedAt = at.AsTime()
	}
	if entry.RequestID == "" {
		entry.RequestID, entry.OwnID = rand.Text(), true
	}
	return entry
}

// printOf is a hash of what a request asks for. What may differ when a caller sends it again is left out: what it knew of the
// record then, and that it only tried.
func printOf(req proto.Message) string {
	plain := proto.Clone(req)
	forget(plain.ProtoReflect(), "request_id")
	for _, part := range []protoreflect.Name{"entry", "vehicle", "job"} {
		field := plain.ProtoReflect().Descriptor().Fields().ByName(part)
		if field == nil || field.Message() == nil || !plain.ProtoReflect().Has(field) {
			continue
		}
		inner := plain.ProtoReflect().Mutable(field).Message()
		forget(inner, "request_id", "etag", "validate_only")
	}
	content, err := proto.MarshalOptions{Deterministic: true}.Marshal(plain)
	if err != nil {
		return "" // a message that came over the wire can be sent over it
	}
	sum := sha256.Sum256(append([]byte(plain.ProtoReflect().Descriptor().FullName()), content...))
	return hex.EncodeToString(sum[:])
}

func forget(m protoreflect.Message, names ...protoreflect.Name) {
	for _, name := range names {
		if field := m.Descriptor().Fields().ByName(name); field != nil {
			m.Clear(field)
		}
	}
}

// withNewID makes something under the id asked for or, without one, under one that is made up.
func withNewID(asked string, make func(id string) error) error {
	if asked != "" {
		return make(asked)
	}
	for try := 0; ; try++ {
		err := make(strings.ToLower(rand.Text()[:10]))
		if _, taken := errors.AsType[*history.ExistsError](err); !taken || try == 10 {
			return err
		}
	}
}

// under leads the field of every complaint about input to where the request has it.
func under(err error, place func(field string) string) error {
	found := inputErrors(err)
	if len(found) == 0 {
		return err
	}
	var out faults
	for _, e := range found {
		out.add(place(e.Field), e.Says)
	}
	return out.asError()
}

// inputErrors are all complaints about input in an error.
func inputErrors(err error) (out []*history.InputError) {
	switch e := err.(type) { //nolint:errorlint // joined errors are taken apart one by one
	case *history.InputError:
		return []*history.InputError{e}
	case interface{ Unwrap() []error }:
		for _, each := range e.Unwrap() {
			out = append(out, inputErrors(each)...)
		}
	case interface{ Unwrap() error }:
		return inputErrors(e.Unwrap())
	}
	return out
}
