package main

import (
	"bytes"
	"encoding/json"
)

// object is a JSON object that keeps the order of its members, so that the document reads as the contract does.
type object []member

type member struct {
	name  string
	value any
}

// with returns the object and one member more; a member with nothing in it is left out.
func (o object) with(name string, value any) object {
	switch v := value.(type) {
	case string:
		if v == "" {
			return o
		}
	case object:
		if v == nil {
			return o
		}
	case []any:
		if len(v) == 0 {
			return o
		}
	case []string:
		if len(v) == 0 {
			return o
		}
	}
	return append(o, member{name, value})
}

// get returns a member's value, nil when there is none.
func (o object) get(name string) any {
	for _, m := range o {
		if m.name == name {
			return m.value
		}
	}
	return nil
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	out.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			out.WriteByte(',')
		}
		name, err := plain(m.name)
		if err != nil {
			return nil, err
		}
		value, err := plain(m.value)
		if err != nil {
			return nil, err
		}
		out.Write(name)
		out.WriteByte(':')
		out.Write(value)
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// plain is JSON with <, > and & as they are.
func plain(value any) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	err := encoder.Encode(value)
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), err
}
