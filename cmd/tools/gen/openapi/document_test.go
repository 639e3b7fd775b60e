package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"google.golang.org/protobuf/encoding/prototext"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/descriptorpb"
)

// contract is a small one, in the text form of descriptors; METHODS is to be filled in.
const contract = `file {
  name: "a.proto" package: "a" syntax: "proto3"
  message_type { name: "Pot"
    field { name: "name" number: 1 type: TYPE_STRING label: LABEL_OPTIONAL json_name: "name" options { [buf.validate.field] { string { min_len: 1 max_len: 9 pattern: "^[a-z]+$" } } } }
    field { name: "fill_pct" number: 2 type: TYPE_DOUBLE label: LABEL_OPTIONAL json_name: "fillPct" proto3_optional: true oneof_index: 1 options { [buf.validate.field] { double { gte: 0 lt: 100.5 } } } }
    field { name: "grams" number: 3 type: TYPE_INT64 label: LABEL_OPTIONAL json_name: "grams" oneof_index: 0 }
    field { name: "kind" number: 4 type: TYPE_ENUM type_name: ".a.Kind" label: LABEL_OPTIONAL json_name: "kind" oneof_index: 0 }
    field { name: "lids" number: 5 type: TYPE_MESSAGE type_name: ".a.Pot" label: LABEL_REPEATED json_name: "lids" options { [buf.validate.field] { repeated { max_items: 3 unique: true } } } }
    oneof_decl { name: "what" options { [buf.validate.oneof] { required: true } } }
    oneof_decl { name: "_fill_pct" }
  }
  enum_type { name: "Kind" value { name: "KIND_UNSPECIFIED" number: 0 } value { name: "KIND_CLAY" number: 1 } }
  service { name: "Pots" METHODS }
}`

// described runs the generator over the contract with these methods.
func described(t *testing.T, methods string) (map[string]any, error) {
	t.Helper()
	var set descriptorpb.FileDescriptorSet
	if err := prototext.Unmarshal([]byte(strings.Replace(contract, "METHODS", methods, 1)), &set); err != nil {
		t.Fatal(err)
	}
	compiled, err := proto.Marshal(&set)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := convert(bytes.NewReader(compiled), &out, []string{"a.Pots"}); err != nil {
		return nil, err
	}
	var document map[string]any
	if err := json.Unmarshal(out.Bytes(), &document); err != nil {
		t.Fatal(err)
	}
	return document, nil
}

func TestSchemasCarryTheBoundsOfTheContract(t *testing.T) {
	document, err := described(t, `method { name: "MakePot" input_type: ".a.Pot" output_type: ".a.Pot" options { [google.api.http] { post: "/v1/pots" body: "*" } } }`)
	if err != nil {
		t.Fatal(err)
	}
	pot := document["components"].(map[string]any)["schemas"].(map[string]any)["Pot"]
	got, err := json.Marshal(pot)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"allOf":[{"oneOf":[{"required":["grams"]},{"required":["kind"]}]}],"description":"Exactly one of grams, kind is there.",` +
		`"properties":{"fill_pct":{"exclusiveMaximum":100.5,"format":"double","minimum":0,"type":"number"},` +
		`"grams":{"format":"int64","pattern":"^-?[0-9]+$","type":"string"},"kind":{"$ref":"#/components/schemas/Kind"},` +
		`"lids":{"items":{"$ref":"#/components/schemas/Pot"},"maxItems":3,"type":"array","uniqueItems":true},` +
		`"name":{"maxLength":9,"minLength":1,"pattern":"^[a-z]+$","type":"string"}},"required":["name"],"type":"object"}`
	if string(got) != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	text, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	if wrong := complaints(t, text); len(wrong) > 0 {
		t.Error(strings.Join(wrong, "\n"))
	}
}

func TestWhatCannotBeDescribedIsRefused(t *testing.T) {
	for name, row := range map[string]struct{ methods, says string }{
		"a stream": {
			`method { name: "Watch" input_type: ".a.Pot" output_type: ".a.Pot" server_streaming: true options { [google.api.http] { get: "/v1/pots" } } }`,
			"streams",
		},
		"a message in a query": {
			`method { name: "List" input_type: ".a.Pot" output_type: ".a.Pot" options { [google.api.http] { get: "/v1/pots" } } }`,
			"field lids has parts",
		},
		"one path twice": {
			`method { name: "A" input_type: ".a.Pot" output_type: ".a.Pot" options { [google.api.http] { post: "/v1/pots" body: "*" } } }
			 method { name: "B" input_type: ".a.Pot" output_type: ".a.Pot" options { [google.api.http] { post: "/v1/pots" body: "*" } } }`,
			"taken twice",
		},
		"a field that is not there": {
			`method { name: "A" input_type: ".a.Pot" output_type: ".a.Pot" options { [google.api.http] { post: "/v1/pots/{nmae}" body: "*" } } }`,
			"has no field nmae",
		},
	} {
		if _, err := described(t, row.methods); err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: %v, want %s", name, err, row.says)
		}
	}
}
