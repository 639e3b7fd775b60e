package main

import (
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

func rulesOf(field protoreflect.FieldDescriptor) *validate.FieldRules {
	rules, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
	return rules
}

func requiredOneof(oneof protoreflect.OneofDescriptor) bool {
	rules, _ := proto.GetExtension(oneof.Options(), validate.E_Oneof).(*validate.OneofRules)
	return rules.GetRequired()
}

// required reports a field that a request cannot leave out: it is said so, or nothing is out of its bounds.
func required(field protoreflect.FieldDescriptor) bool {
	rules := rulesOf(field)
	if rules.GetRequired() {
		return true
	}
	if field.HasPresence() || rules.GetIgnore() == validate.Ignore_IGNORE_IF_ZERO_VALUE {
		return false
	}
	for _, never := range rules.GetEnum().GetNotIn() {
		if never == 0 {
			return true
		}
	}
	return rules.GetString().GetMinLen() > 0 || rules.GetRepeated().GetMinItems() > 0 ||
		rules.GetInt64().GetGte() > 0 || rules.GetInt32().GetGte() > 0 || rules.GetDouble().GetGte() > 0
}

// meaning is the comment of a field, and what else is asked of it that has no keyword.
func meaning(field protoreflect.FieldDescriptor) string {
	says := comment(field)
	for _, rule := range rulesOf(field).GetCel() {
		if text := rule.GetMessage(); text != "" {
			says += " " + strings.ToUpper(text[:1]) + text[1:] + "."
		}
	}
	return strings.TrimSpace(says)
}

// listBounds are the keywords of a list.
func listBounds(field protoreflect.FieldDescriptor) object {
	rules := rulesOf(field).GetRepeated()
	if rules == nil {
		return nil
	}
	var out object
	if rules.GetMinItems() > 0 {
		out = out.with("minItems", rules.GetMinItems())
	}
	if rules.MaxItems != nil {
		out = out.with("maxItems", rules.GetMaxItems())
	}
	if rules.GetUnique() {
		out = out.with("uniqueItems", true)
	}
	return out
}

// bounds are the keywords of one value: lengths and patterns of text, ranges of numbers. Numbers of 64 bits are text in JSON and
// have none.
func bounds(rules *validate.FieldRules) object {
	switch rules.GetType().(type) {
	case *validate.FieldRules_String_:
		return textBounds(rules.GetString())
	case *validate.FieldRules_Double:
		return numberBounds(rules.GetDouble().ProtoReflect())
	case *validate.FieldRules_Float:
		return numberBounds(rules.GetFloat().ProtoReflect())
	case *validate.FieldRules_Int32:
		return numberBounds(rules.GetInt32().ProtoReflect())
	case *validate.FieldRules_Uint32:
		return numberBounds(rules.GetUint32().ProtoReflect())
	}
	return nil
}

func textBounds(rules *validate.StringRules) object {
	var out object
	if rules.GetMinLen() > 0 {
		out = out.with("minLength", rules.GetMinLen())
	}
	switch {
	case rules.MaxLen != nil:
		out = out.with("maxLength", rules.GetMaxLen())
	case rules.MaxBytes != nil: // a character has a byte at least
		out = out.with("maxLength", rules.GetMaxBytes())
	}
	return out.with("pattern", rules.GetPattern()).with("enum", rules.GetIn())
}

// numberBounds reads the rules of any kind of number, which all name their bounds alike.
func numberBounds(rules protoreflect.Message) object {
	var out object
	for _, pair := range [...][2]string{{"gte", "minimum"}, {"gt", "exclusiveMinimum"}, {"lte", "maximum"}, {"lt", "exclusiveMaximum"}} {
		if field := rules.Descriptor().Fields().ByName(protoreflect.Name(pair[0])); rules.Has(field) {
			out = out.with(pair[1], rules.Get(field).Interface())
		}
	}
	return out
}
