package main

import (
	"fmt"
	"slices"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

func ref(name string) object { return object{{"$ref", "#/components/schemas/" + name}} }

// named is the name of a schema: the full name without its package.
func named(d protoreflect.Descriptor) string {
	return strings.ReplaceAll(strings.TrimPrefix(string(d.FullName()), string(d.ParentFile().Package())+"."), ".", "")
}

// message names a schema and sees to it that it is written.
func (b *builder) message(message protoreflect.MessageDescriptor) object {
	if known := wellKnown(message); known != nil {
		return known
	}
	b.wait(message)
	return ref(named(message))
}

func (b *builder) wait(d protoreflect.Descriptor) {
	if _, ok := b.schemas[d.FullName()]; !ok {
		b.schemas[d.FullName()] = nil
		b.waiting = append(b.waiting, d)
	}
}

// components writes every schema that is named, and those that they name, by name.
func (b *builder) components() object {
	out := object(statusSchemas())
	for len(b.waiting) > 0 {
		d := b.waiting[0]
		b.waiting = b.waiting[1:]
		switch d := d.(type) {
		case protoreflect.MessageDescriptor:
			out = append(out, member{named(d), b.write(d)})
		case protoreflect.EnumDescriptor:
			out = append(out, member{named(d), words(d)})
		}
	}
	slices.SortFunc(out, func(a, b member) int { return strings.Compare(a.name, b.name) })
	return out
}

// wellKnown is the JSON form of messages that have one of their own; nil for all others.
func wellKnown(message protoreflect.MessageDescriptor) object {
	switch message.FullName() {
	case "google.protobuf.Timestamp":
		return object{{"type", "string"}, {"format", "date-time"}}
	case "google.protobuf.FieldMask":
		return object{{"type", "string"}}
	case "google.protobuf.Empty":
		return object{{"type", "object"}}
	}
	return nil
}

// write is the schema of a message.
func (b *builder) write(message protoreflect.MessageDescriptor) object {
	properties := object{}
	var need []string
	for i := range message.Fields().Len() {
		field := message.Fields().Get(i)
		if b.bound[message.FullName()][field.Name()] {
			continue
		}
		properties = properties.with(string(field.Name()), b.field(field, true))
		if required(field) {
			need = append(need, string(field.Name()))
		}
	}
	says := comment(message)
	var choices []any
	for i := range message.Oneofs().Len() {
		oneof := message.Oneofs().Get(i)
		if oneof.IsSynthetic() {
			continue
		}
		names := make([]string, oneof.Fields().Len())
		alternatives := make([]any, len(names))
		for k := range names {
			names[k] = string(oneof.Fields().Get(k).Name())
			alternatives[k] = object{{"required", []string{names[k]}}}
		}
		quantity := "At most"
		if requiredOneof(oneof) {
			quantity = "Exactly"
			choices = append(choices, object{{"oneOf", alternatives}})
		}
		says += fmt.Sprintf(" %s one of %s is there.", quantity, strings.Join(names, ", "))
	}
	return object{{"type", "object"}}.with("description", strings.TrimSpace(says)).
		with("properties", properties).with("required", need).with("allOf", choices)
}

// words is the schema of a closed list, with the meaning of each word.
func words(enum protoreflect.EnumDescriptor) object {
	says := comment(enum)
	values := make([]string, enum.Values().Len())
	for i := range values {
		value := enum.Values().Get(i)
		values[i] = string(value.Name())
		says += "\n- `" + values[i] + "`: " + comment(value)
	}
	return object{{"type", "string"}, {"description", strings.TrimSpace(says)}, {"enum", values}}
}

// field is the schema of a field, with its meaning where there is no other place for it.
func (b *builder) field(field protoreflect.FieldDescriptor, describe bool) object {
	var out object
	switch {
	case field.IsMap():
		out = object{{"type", "object"}, {"additionalProperties", b.single(field.MapValue())}}
	case field.IsList():
		out = append(object{{"type", "array"}, {"items", b.item(field)}}, listBounds(field)...)
	default:
		out = b.single(field)
	}
	if describe {
		out = out.with("description", meaning(field))
	}
	return out
}

// single is the schema of one value of a field.
func (b *builder) single(field protoreflect.FieldDescriptor) object {
	return append(b.kind(field), bounds(rulesOf(field))...)
}

func (b *builder) item(field protoreflect.FieldDescriptor) object {
	return append(b.kind(field), bounds(rulesOf(field).GetRepeated().GetItems())...)
}

func (b *builder) kind(field protoreflect.FieldDescriptor) object {
	switch field.Kind() {
	case protoreflect.MessageKind, protoreflect.GroupKind:
		return b.message(field.Message())
	case protoreflect.EnumKind:
		b.wait(field.Enum())
		return ref(named(field.Enum()))
	case protoreflect.BoolKind:
		return object{{"type", "boolean"}}
	case protoreflect.StringKind:
		return object{{"type", "string"}}
	case protoreflect.BytesKind:
		return object{{"type", "string"}, {"contentEncoding", "base64"}}
	case protoreflect.DoubleKind, protoreflect.FloatKind:
		return object{{"type", "number"}, {"format", field.Kind().String()}}
	case protoreflect.Int64Kind, protoreflect.Sint64Kind, protoreflect.Sfixed64Kind, protoreflect.Uint64Kind, protoreflect.Fixed64Kind:
		return object{{"type", "string"}, {"format", "int64"}, {"pattern", "^-?[0-9]+$"}}
	}
	return object{{"type", "integer"}, {"format", "int32"}}
}
