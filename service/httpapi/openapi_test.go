package httpapi_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/httpapi"
)

// document is the part of an OpenAPI document that is looked at here.
type document struct {
	Paths map[string]map[string]operation `json:"paths"`
}

type operation struct {
	ID          string      `json:"operationId"`
	Parameters  []parameter `json:"parameters"`
	RequestBody *struct{}   `json:"requestBody"`
}

type parameter struct {
	Name string `json:"name"`
	In   string `json:"in"`
}

func read(t *testing.T) document {
	t.Helper()
	var doc document
	require.NoError(t, json.Unmarshal(httpapi.OpenAPI(), &doc))
	return doc
}

func TestTheDocumentIsServed(t *testing.T) {
	got := call(t, http.MethodGet, "http://"+serve(t)+"/openapi.json", "")
	require.Equal(t, http.StatusOK, got.status)
	assert.Equal(t, "3.1.0", got.json(t)["openapi"])
	assert.Equal(t, httpapi.OpenAPI(), got.text)
}

// Every method of the contract that has a path is in the document, and nothing else is; and every method has a path, unless it
// streams.
func TestTheDocumentNamesEveryMethod(t *testing.T) {
	want := map[string]bool{}
	protoregistry.GlobalFiles.RangeFilesByPackage(glossladderv1.File_glossladder_v1_words_proto.Package(), func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			collect(t, file.Services().Get(i).Methods(), want)
		}
		return true
	})
	require.NotEmpty(t, want)
	got := map[string]bool{}
	for _, item := range read(t).Paths {
		for _, op := range item {
			assert.False(t, got[op.ID], "%s twice", op.ID)
			got[op.ID] = true
		}
	}
	assert.Equal(t, want, got)
}

// collect notes the methods that have a path.
func collect(t *testing.T, methods protoreflect.MethodDescriptors, into map[string]bool) {
	t.Helper()
	for i := range methods.Len() {
		method := methods.Get(i)
		streams := method.IsStreamingClient() || method.IsStreamingServer()
		has := proto.HasExtension(method.Options(), annotations.E_Http)
		assert.NotEqual(t, streams, has, "%s: a method has a path, or streams", method.Name())
		if has {
			name := string(method.Name())
			into[strings.ToLower(name[:1])+name[1:]] = true
		}
	}
}

// schemas are the schemas of the document, judged by a JSON Schema library. Answers are judged strictly: a field that no schema
// names is wrong as well.
type schemas struct{ request, answer *jsonschema.Compiler }

func compile(t *testing.T) schemas {
	t.Helper()
	compiler := func(strict bool) *jsonschema.Compiler {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(httpapi.OpenAPI()))
		require.NoError(t, err)
		if strict {
			for _, schema := range doc.(map[string]any)["components"].(map[string]any)["schemas"].(map[string]any) {
				one := schema.(map[string]any)
				if _, open := one["additionalProperties"]; !open && one["type"] == "object" {
					one["additionalProperties"] = false
				}
			}
		}
		c := jsonschema.NewCompiler()
		c.DefaultDraft(jsonschema.Draft2020)
		c.AssertFormat()
		require.NoError(t, c.AddResource("mem:///openapi.json", doc))
		return c
	}
	return schemas{request: compiler(false), answer: compiler(true)}
}

// check judges a text by the schema at a place of the document.
func check(t *testing.T, c *jsonschema.Compiler, text []byte, place ...string) {
	t.Helper()
	for i, part := range place {
		place[i] = strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D").Replace(part)
	}
	schema, err := c.Compile("mem:///openapi.json#/" + strings.Join(place, "/"))
	require.NoError(t, err)
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err, string(text))
	require.NoError(t, schema.Validate(value), string(text))
}

// find gives the operation of a path as it is called.
func (d document) find(t *testing.T, method, path string) (template string, op operation) {
	t.Helper()
	for template, item := range d.Paths {
		op, has := item[strings.ToLower(method)]
		if has && matches(template, path) {
			return template, op
		}
	}
	require.Fail(t, "the document has no "+method+" "+path)
	return "", operation{}
}

func matches(template, path string) bool {
	want, given := strings.Split(template, "/"), strings.Split(path, "/")
	if len(want) != len(given) {
		return false
	}
	for i := range want {
		wantPart, wantVerb, _ := strings.Cut(want[i], ":")
		givenPart, givenVerb, _ := strings.Cut(given[i], ":")
		if wantVerb != givenVerb || !strings.HasPrefix(wantPart, "{") && wantPart != givenPart {
			return false
		}
	}
	return true
}

// A story that calls every path of the document, each request and each answer judged by its schema.
func TestEveryPathAnswersAsTheDocumentSays(t *testing.T) {
	base, doc, judge := "http://"+serve(t), read(t), compile(t)
	called, kept := map[string]bool{}, map[string]string{}
	for _, step := range story {
		fill := func(text string) string {
			for name, value := range kept {
				text = strings.ReplaceAll(text, "$"+name, value)
			}
			return text
		}
		target, body := fill(step.path), fill(step.body)
		path, query, _ := strings.Cut(target, "?")
		template, op := doc.find(t, step.method, path)
		name := op.ID
		called[name] = true
		place := []string{"paths", template, strings.ToLower(step.method)}
		for pair := range strings.SplitSeq(query, "&") {
			given, _, _ := strings.Cut(pair, "=")
			assert.True(t, given == "" || slices.Contains(op.Parameters, parameter{given, "query"}), "%s has no parameter %s", name, given)
		}
		assert.Equal(t, op.RequestBody != nil, body != "", name)
		if body != "" {
			check(t, judge.request, []byte(body), append(slices.Clone(place), "requestBody", "content", "application/json", "schema")...)
		}
		got := call(t, step.method, base+target, body)
		require.Equal(t, http.StatusOK, got.status, "%s: %s", name, got.text)
		check(t, judge.answer, got.text, append(place, "responses", "200", "content", "application/json", "schema")...)
		for as, where := range step.keep {
			kept[as] = at(t, got.json(t), where)
		}
	}
	for _, item := range doc.Paths {
		for _, op := range item {
			assert.True(t, called[op.ID], "%s is not called", op.ID)
		}
	}
	t.Logf("%d operations: %s", len(called), strings.Join(slices.Sorted(maps.Keys(called)), " "))
}

// at is the text at a place such as files.0.etag, ready to stand in JSON.
func at(t *testing.T, from any, where string) string {
	t.Helper()
	for part := range strings.SplitSeq(where, ".") {
		var index int
		if _, err := fmt.Sscanf(part, "%d", &index); err == nil {
			from = from.([]any)[index]
		} else {
			from = from.(map[string]any)[part]
		}
	}
	text, err := json.Marshal(from)
	require.NoError(t, err)
	return strings.Trim(string(text), `"`)
}

func TestAnErrorAnswersAsTheDocumentSays(t *testing.T) {
	base, judge := "http://"+serve(t), compile(t)
	for _, row := range []struct{ method, path, body string }{
		{"POST", "/v1:recommend", `{"inspection": {"panels": [{"id": "Front Door"}]}}`},
		{"POST", "/v1:recommend", `{"x": 1}`},
		{"GET", "/v1/facts?x=1", ""},
		{"GET", "/v1/jobs/none", ""},
		{"GET", "/v1/none", ""},
		{"POST", "/v1/ruleFiles", `{"name": "start.yaml", "text": "x"}`},
		{"PATCH", "/v1/ruleFiles/start.yaml", `{"text": "x", "etag": "y"}`},
	} {
		got := call(t, row.method, base+row.path, row.body)
		require.GreaterOrEqual(t, got.status, 400)
		check(t, judge.answer, got.text, "components", "schemas", "Status")
	}
}
