package rpc

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"buf.build/go/protovalidate"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// Validate refuses requests that break the contract's constraints, every violation at once, as a
// google.rpc.BadRequest with field paths that name the value and the allowed range.
func Validate(v protovalidate.Validator) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (any, error) {
		if message, ok := req.(proto.Message); ok {
			if err := v.Validate(message); err != nil {
				return nil, violations(err, message.ProtoReflect().Descriptor())
			}
		}
		return handle(ctx, req)
	}
}

func violations(err error, request protoreflect.MessageDescriptor) error {
	broken, ok := errors.AsType[*protovalidate.ValidationError](err)
	if !ok {
		return &internalError{cause: fmt.Errorf("validate request: %w", err)}
	}
	details := &errdetails.BadRequest{}
	for _, v := range broken.Violations {
		details.FieldViolations = append(details.FieldViolations, &errdetails.BadRequest_FieldViolation{
			Field: protovalidate.FieldPathString(v.Proto.GetField()), Description: describe(v, fieldAt(request, v.Proto.GetField())), Reason: reasonOfRule(v.Proto.GetRuleId()),
		})
	}
	return invalid(details)
}

// fieldAt follows a field path down from the request; nil when the path leads nowhere.
func fieldAt(message protoreflect.MessageDescriptor, path *validate.FieldPath) (field protoreflect.FieldDescriptor) {
	for _, element := range path.GetElements() {
		if message == nil {
			return nil
		}
		if field = message.Fields().ByNumber(protoreflect.FieldNumber(element.GetFieldNumber())); field == nil {
			return nil
		}
		message = field.Message()
	}
	return field
}

// describe says which value broke which range; the library's own words leave the value out.
func describe(v *protovalidate.Violation, field protoreflect.FieldDescriptor) string {
	says := v.Proto.GetMessage()
	if field == nil || !v.FieldValue.IsValid() {
		return says
	}
	switch value := v.FieldValue.Interface().(type) {
	case float64:
		return fmt.Sprintf("%v is not allowed: %s", value, rangeOf(field, says))
	case string:
		return fmt.Sprintf("%q is not allowed: %s", value, says)
	case protoreflect.EnumNumber:
		return fmt.Sprintf("%s is not allowed: %s", enumName(field.Enum(), value), says)
	}
	return says
}

func enumName(enum protoreflect.EnumDescriptor, number protoreflect.EnumNumber) string {
	if value := enum.Values().ByNumber(number); value != nil {
		return string(value.Name())
	}
	return fmt.Sprint(number)
}

// rangeOf is the allowed range with both ends and the unit, which a field's name ends in.
func rangeOf(field protoreflect.FieldDescriptor, otherwise string) string {
	constraints, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
	number := constraints.GetDouble()
	if field.IsList() {
		number = constraints.GetRepeated().GetItems().GetDouble()
	}
	if number.GetGreaterThan() == nil || number.GetLessThan() == nil {
		return otherwise
	}
	return fmt.Sprintf("from %v to %v%s", number.GetGte(), number.GetLte(), unitOf(string(field.Name())))
}

// unitOf reads the unit off the ending of a field's name, as the contract spells it.
func unitOf(field string) string {
	for ending, unit := range map[string]string{
		"_um": " µm", "_gu": " GU", "_hu": " HU", "_c": " °C", "_pct": " %", "_cm_s": " cm/s", "_years": " years", "_days": " days", "minutes": " minutes",
	} {
		if strings.HasSuffix(field, ending) {
			return unit
		}
	}
	return ""
}

func reasonOfRule(rule string) string {
	return strings.ToUpper(strings.NewReplacer(".", "_", "-", "_").Replace(rule))
}

// ValidateStream is [Validate] for the request of a stream.
func ValidateStream(v protovalidate.Validator) grpc.StreamServerInterceptor {
	return func(server any, stream grpc.ServerStream, _ *grpc.StreamServerInfo, handle grpc.StreamHandler) error {
		return handle(server, &validStream{ServerStream: stream, validator: v})
	}
}

// validStream refuses what breaks the contract's constraints as it comes in.
type validStream struct {
	grpc.ServerStream
	validator protovalidate.Validator
}

func (s *validStream) RecvMsg(m any) error {
	if err := s.ServerStream.RecvMsg(m); err != nil {
		return err
	}
	message, ok := m.(proto.Message)
	if !ok {
		return nil
	}
	if err := s.validator.Validate(message); err != nil {
		return violations(err, message.ProtoReflect().Descriptor())
	}
	return nil
}
