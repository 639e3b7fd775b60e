package httpapi

import (
	"errors"
	"strings"

	"connectrpc.com/connect"
	"connectrpc.com/vanguard"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// codec is JSON as callers of this service meet it: fields are named as in the contract, in rule files and in the paths of
// errors; what has no presence is written even when it is empty, so that a list is always there; and a field that the
// contract does not have is refused, since it is most often one that was misspelt.
type codec struct{ vanguard.JSONCodec }

func newCodec(types vanguard.TypeResolver) codec {
	return codec{vanguard.JSONCodec{
		MarshalOptions:   protojson.MarshalOptions{UseProtoNames: true, EmitDefaultValues: true, Resolver: types},
		UnmarshalOptions: protojson.UnmarshalOptions{Resolver: types},
	}}
}

// Unmarshal reads a message. What is wrong with it is the caller's fault.
func (c codec) Unmarshal(text []byte, into proto.Message) error {
	return unreadable(c.JSONCodec.Unmarshal(text, into))
}

// UnmarshalField reads one field of a message.
func (c codec) UnmarshalField(text []byte, into proto.Message, field protoreflect.FieldDescriptor) error {
	return unreadable(c.JSONCodec.UnmarshalField(text, into, field))
}

func unreadable(err error) error {
	if err == nil {
		return nil
	}
	// The library varies its spaces, so that nobody compares its words.
	says := strings.ReplaceAll(err.Error(), "\u00a0", " ")
	says = strings.TrimPrefix(says, "proto: ")
	return connect.NewError(connect.CodeInvalidArgument, errors.New("the body cannot be read: "+says))
}
