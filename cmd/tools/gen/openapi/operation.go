package main

import (
	"fmt"
	"strings"
	"unicode"

	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// method describes every path of a method. One without a path is served over the other protocols alone.
func (b *builder) method(method protoreflect.MethodDescriptor, paths *pathItems) error {
	rule, ok := proto.GetExtension(method.Options(), annotations.E_Http).(*annotations.HttpRule)
	if !ok || rule == nil {
		return nil
	}
	if method.IsStreamingClient() || method.IsStreamingServer() {
		return fmt.Errorf("%s streams, and JSON over HTTP does not", method.FullName())
	}
	for i, one := range append([]*annotations.HttpRule{rule}, rule.GetAdditionalBindings()...) {
		binding, err := bindingOf(one)
		if err != nil {
			return fmt.Errorf("%s: %w", method.FullName(), err)
		}
		operation, err := b.operation(method, binding, i)
		if err != nil {
			return fmt.Errorf("%s: %w", method.FullName(), err)
		}
		if err := paths.add(binding.path, binding.verb, operation); err != nil {
			return err
		}
	}
	return nil
}

func (b *builder) operation(method protoreflect.MethodDescriptor, to binding, count int) (object, error) {
	id := string(unicode.ToLower(rune(method.Name()[0]))) + string(method.Name()[1:])
	if count > 0 {
		id += fmt.Sprint(count + 1)
	}
	parameters, err := b.parameters(method.Input(), to)
	if err != nil {
		return nil, err
	}
	out := object{}.
		with("operationId", id).
		with("tags", []string{string(method.Parent().Name())}).
		with("summary", inWords(string(method.Name()))).
		with("description", comment(method)).
		with("parameters", parameters)
	if to.body != "" {
		body, err := b.body(method.Input(), to)
		if err != nil {
			return nil, err
		}
		out = out.with("requestBody", object{{"required", true}, {"content", object{{"application/json", object{{"schema", body}}}}}})
	}
	return out.with("responses", object{
		{"200", object{{"description", "Done."}, {"content", object{{"application/json", object{{"schema", b.message(method.Output())}}}}}}},
		{"default", object{{"$ref", "#/components/responses/Error"}}},
	}), nil
}

// parameters are those in the path, then those of the query: whatever the path and the body do not hold.
func (b *builder) parameters(input protoreflect.MessageDescriptor, to binding) ([]any, error) {
	var out []any
	inPath := map[protoreflect.Name]bool{}
	for _, param := range to.params {
		field, err := fieldAt(input, param.field)
		if err != nil {
			return nil, err
		}
		inPath[protoreflect.Name(strings.Split(param.field, ".")[0])] = true
		schema := object{{"type", "string"}}
		if param.shape == "" || param.shape == "**" {
			schema = b.single(field)
		}
		out = append(out, object{{"name", param.name}, {"in", "path"}, {"required", true}, {"description", param.describe(field)}, {"schema", schema}})
	}
	if to.body == "*" {
		return out, nil
	}
	for i := range input.Fields().Len() {
		field := input.Fields().Get(i)
		if inPath[field.Name()] || string(field.Name()) == to.body {
			continue
		}
		if field.Message() != nil && wellKnown(field.Message()) == nil {
			return nil, fmt.Errorf("field %s has parts and cannot stand in a query", field.Name())
		}
		parameter := object{{"name", string(field.Name())}, {"in", "query"}}
		if required(field) {
			parameter = parameter.with("required", true)
		}
		out = append(out, parameter.with("description", meaning(field)).with("schema", b.field(field, false)))
	}
	return out, nil
}

// body is the schema of what is sent. A request whose every field is in the body is described without those of the path.
func (b *builder) body(input protoreflect.MessageDescriptor, to binding) (object, error) {
	if to.body != "*" {
		field, err := fieldAt(input, to.body)
		if err != nil {
			return nil, err
		}
		return b.field(field, true), nil
	}
	for _, param := range to.params {
		if strings.Contains(param.field, ".") {
			return nil, fmt.Errorf("path part %s lies inside the body", param.field)
		}
		if b.bound[input.FullName()] == nil {
			b.bound[input.FullName()] = map[protoreflect.Name]bool{}
		}
		b.bound[input.FullName()][protoreflect.Name(param.field)] = true
	}
	return b.message(input), nil
}

func fieldAt(message protoreflect.MessageDescriptor, path string) (field protoreflect.FieldDescriptor, err error) {
	for part := range strings.SplitSeq(path, ".") {
		if message == nil {
			return nil, fmt.Errorf("%s: %s has no parts", path, field.Name())
		}
		if field = message.Fields().ByName(protoreflect.Name(part)); field == nil {
			return nil, fmt.Errorf("%s has no field %s", message.FullName(), part)
		}
		message = field.Message()
	}
	return field, nil
}

// inWords turns ListJobEvents into "List job events".
func inWords(name string) string {
	var out strings.Builder
	for i, letter := range name {
		if i > 0 && unicode.IsUpper(letter) {
			out.WriteByte(' ')
			letter = unicode.ToLower(letter)
		}
		out.WriteRune(letter)
	}
	return out.String()
}
