package main

import (
	"fmt"
	"strings"
	"unicode"

	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// binding is one path of a method.
type binding struct {
	verb, path, body string
	params           []pathParam
}

// pathParam is a part of a path and the field of the request that it fills.
type pathParam struct {
	name  string // in the document
	field string // path of the field, such as vehicle.name
	shape string // the name that it is a part of, such as vehicles/{vehicle}; "**" for one with slashes; "" for one plain part
}

func bindingOf(rule *annotations.HttpRule) (binding, error) {
	b := binding{body: rule.GetBody()}
	var template string
	switch pattern := rule.GetPattern().(type) {
	case *annotations.HttpRule_Get:
		b.verb, template = "get", pattern.Get
	case *annotations.HttpRule_Post:
		b.verb, template = "post", pattern.Post
	case *annotations.HttpRule_Put:
		b.verb, template = "put", pattern.Put
	case *annotations.HttpRule_Patch:
		b.verb, template = "patch", pattern.Patch
	case *annotations.HttpRule_Delete:
		b.verb, template = "delete", pattern.Delete
	default:
		return b, fmt.Errorf("no path for %v", rule)
	}
	err := b.read(template)
	return b, err
}

// read takes a template apart: /v1/{name=vehicles/*}/film becomes /v1/vehicles/{vehicle}/film.
func (b *binding) read(template string) error {
	var out strings.Builder
	for template != "" {
		before, rest, found := strings.Cut(template, "{")
		out.WriteString(before)
		if !found {
			break
		}
		inside, after, closed := strings.Cut(rest, "}")
		if !closed {
			return fmt.Errorf("path %s: { without }", template)
		}
		field, shape, _ := strings.Cut(inside, "=")
		if err := b.add(field, shape, &out); err != nil {
			return fmt.Errorf("path %s: %w", template, err)
		}
		template = after
	}
	b.path = out.String()
	return nil
}

// add writes what stands for a field into the path: {field}, or a resource name such as jobs/{job}/events/{event}.
func (b *binding) add(field, shape string, out *strings.Builder) error {
	if shape == "" || shape == "**" {
		name := field[strings.LastIndex(field, ".")+1:]
		b.params = append(b.params, pathParam{name: name, field: field, shape: shape})
		out.WriteString("{" + name + "}")
		return nil
	}
	parts := strings.Split(shape, "/")
	var names []string
	for i := range parts {
		switch {
		case parts[i] == "*" && i > 0 && parts[i-1][0] != '{':
			name := snake(strings.TrimSuffix(parts[i-1], "s"))
			names = append(names, name)
			parts[i] = "{" + name + "}"
		case strings.Contains(parts[i], "*"):
			return fmt.Errorf("cannot describe %s", shape)
		}
	}
	whole := strings.Join(parts, "/")
	for _, name := range names {
		b.params = append(b.params, pathParam{name: name, field: field, shape: whole})
	}
	out.WriteString(whole)
	return nil
}

// snake turns reportLink into report_link.
func snake(name string) string {
	var out strings.Builder
	for _, letter := range name {
		if unicode.IsUpper(letter) {
			out.WriteByte('_')
		}
		out.WriteRune(unicode.ToLower(letter))
	}
	return out.String()
}

// describe says how the part of the path becomes the field.
func (p pathParam) describe(field protoreflect.FieldDescriptor) string {
	switch {
	case p.shape == "**":
		return comment(field) + " It may hold slashes, sent as they are or as %2F."
	case p.shape != "":
		return fmt.Sprintf("Its part of the name %s.", p.shape)
	}
	return comment(field)
}

// pathItems are the operations by path, in the order in which paths were first met.
type pathItems struct {
	order []string
	items map[string]object
}

func (p *pathItems) add(path, verb string, operation object) error {
	if p.items == nil {
		p.items = map[string]object{}
	}
	if p.items[path] == nil {
		p.order = append(p.order, path)
	}
	if p.items[path].get(verb) != nil {
		return fmt.Errorf("%s %s is taken twice", verb, path)
	}
	p.items[path] = p.items[path].with(verb, operation)
	return nil
}

func (p *pathItems) object() object {
	out := make(object, 0, len(p.order))
	for _, path := range p.order {
		out = append(out, member{path, p.items[path]})
	}
	return out
}
