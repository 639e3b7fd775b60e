package intake

import (
	"fmt"
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// reader fills messages from nodes and keeps every problem and every place.
type reader struct {
	bare     Bare
	places   *Places
	problems strictyaml.Problems
}

func (r *reader) complain(n *strictyaml.Node, message, hint string) {
	r.problems = append(r.problems, n.Problem(message, hint))
}

func (r *reader) keep(path string, n *strictyaml.Node) {
	r.places.put(path, Place{File: n.File(), Pos: n.Pos()})
}

// expect says whether a node has the shape that a field needs. A refused node was complained about already.
func (r *reader) expect(n *strictyaml.Node, kind strictyaml.Kind, what, hint string) bool {
	if n.Kind() != kind && n.Kind() != strictyaml.Refused {
		r.complain(n, fmt.Sprintf("%s is %s, not %s", what, kind, n.Kind()), hint)
	}
	return n.Kind() == kind
}

// message fills a message from a map. What names it for people, path for the service.
func (r *reader) message(n *strictyaml.Node, into protoreflect.Message, what, path string) {
	r.keep(path, n)
	if !r.expect(n, strictyaml.Map, what, "its fields are "+strings.Join(fieldNames(into.Descriptor()), ", ")) {
		return
	}
	seen := map[protoreflect.Name]strictyaml.Pos{}
	for _, entry := range n.Entries() {
		field := fieldOf(into.Descriptor(), entry.Key)
		if field == nil {
			r.unknown(n, entry, into.Descriptor(), what)
			continue
		}
		if first, twice := seen[field.Name()]; twice {
			r.problems = append(r.problems, strictyaml.Problem{
				File: n.File(), Pos: entry.KeyPos,
				Message: fmt.Sprintf("%s is given twice", field.Name()), Hint: fmt.Sprintf("the first is on line %d", first.Line),
			})
			continue
		}
		seen[field.Name()] = entry.KeyPos
		r.field(entry.Value, into, field, joined(path, string(field.Name())))
	}
}

func (r *reader) unknown(n *strictyaml.Node, entry strictyaml.Entry, of protoreflect.MessageDescriptor, what string) {
	names := fieldNames(of)
	hint := "its fields are " + strings.Join(names, ", ")
	if near := strictyaml.Nearest(entry.Key, names); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.problems = append(r.problems, strictyaml.Problem{
		File: n.File(), Pos: entry.KeyPos, Message: fmt.Sprintf("%s has no field %s", what, shown(entry.Key)), Hint: hint,
	})
}

// field fills one field: a list item by item, anything else as a single value.
func (r *reader) field(n *strictyaml.Node, into protoreflect.Message, field protoreflect.FieldDescriptor, path string) {
	name := string(field.Name())
	if !field.IsList() {
		switch {
		case field.IsMap():
			r.ownFacts(n, into.Mutable(field).Map(), name, path)
			return
		case isTime(field):
			r.time(n, into, field, path)
			return
		case field.Message() != nil:
			r.message(n, into.Mutable(field).Message(), name, path)
			return
		}
		if value, ok := r.value(n, field, path); ok {
			into.Set(field, value)
		}
		return
	}
	r.keep(path, n)
	if !r.expect(n, strictyaml.List, name, "put a dash before each, or brackets around them") {
		return
	}
	list := into.Mutable(field).List()
	for i, item := range n.Items() {
		at := path + "[" + strconv.Itoa(i) + "]"
		if field.Message() != nil {
			r.message(item, list.AppendMutable().Message(), "one of "+name, at)
			continue
		}
		value, ok := r.value(item, field, at)
		if !ok {
			value = list.NewElement() // the others keep their numbers; nothing with problems is used
		}
		list.Append(value)
	}
}

// value reads a scalar.
func (r *reader) value(n *strictyaml.Node, field protoreflect.FieldDescriptor, path string) (protoreflect.Value, bool) {
	name := string(field.Name())
	if !r.expect(n, strictyaml.Scalar, name, "") {
		r.keep(path, n)
		return protoreflect.Value{}, false
	}
	r.keep(path, n)
	var value protoreflect.Value
	var message, hint string
	switch field.Kind() {
	case protoreflect.DoubleKind:
		var number float64
		number, message, hint = quantity(n.Text(), unitOf(field), r.bare)
		value = protoreflect.ValueOfFloat64(number)
	case protoreflect.EnumKind:
		var number protoreflect.EnumNumber
		number, message, hint = word(n.Text(), field.Enum())
		value = protoreflect.ValueOfEnum(number)
	case protoreflect.BoolKind:
		flag, err := n.Bool()
		if err != nil {
			message = err.Error()
		}
		value = protoreflect.ValueOfBool(flag)
	case protoreflect.StringKind:
		value = protoreflect.ValueOfString(n.Text())
	case protoreflect.Int32Kind:
		var number int64
		number, message, hint = whole(n.Text(), 32)
		value = protoreflect.ValueOfInt32(int32(number)) //nolint:gosec // read as 32 bits
	case protoreflect.Int64Kind:
		var number int64
		number, message, hint = whole(n.Text(), 64)
		value = protoreflect.ValueOfInt64(number)
	default:
		message = fmt.Sprintf("a %s cannot be read from a file", field.Kind())
	}
	if message != "" {
		r.complain(n, name+": "+message, hint)
		return protoreflect.Value{}, false
	}
	return value, true
}

// fieldOf finds a field by its name or by its name in JSON.
func fieldOf(of protoreflect.MessageDescriptor, key string) protoreflect.FieldDescriptor {
	if field := of.Fields().ByName(protoreflect.Name(key)); field != nil {
		return field
	}
	return of.Fields().ByJSONName(key)
}

func fieldNames(of protoreflect.MessageDescriptor) []string {
	names := make([]string, of.Fields().Len())
	for i := range names {
		names[i] = string(of.Fields().Get(i).Name())
	}
	return names
}

func joined(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// shown quotes a text for a message, cut to a readable length.
func shown(text string) string {
	if r := []rune(text); len(r) > maxDigits {
		text = string(r[:maxDigits]) + "…"
	}
	return strconv.Quote(text)
}
