package jsonschema

import (
	"bytes"
	"encoding/json"
	"fmt"

	"github.com/glossladder/glossladder/rules"
)

// Document is the schema of one kind of file.
type Document struct {
	Name  string // table, cases, promises or facts
	Files string // which files of a rule folder it is for, in words
	JSON  []byte // indented, with a line end
}

// File is the name under which a document is kept.
func (d Document) File() string { return d.Name + ".schema.json" }

// Documents are the schemas of the files of a rule folder that is loaded for s.
func Documents(s *rules.Schema) []Document {
	out := []Document{
		{Name: "table", Files: "every table", JSON: encode(tableFile(s))},
		{Name: "cases", Files: "the worked cases under cases/", JSON: encode(caseFile(s))},
		{Name: "promises", Files: "promises.yaml", JSON: encode(promiseFile(s))},
	}
	if s.OwnGroup() != "" {
		out = append(out, Document{Name: "facts", Files: rules.FactsFile, JSON: encode(factFile(s))})
	}
	return out
}

// object is a JSON object. Its keys are written in the order of the alphabet.
type object = map[string]any

// root is the top of a document about a file with these keys.
func root(title string, required []string, properties object) object {
	top := closed(required, properties)
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = title
	return top
}

// closed is an object that has no other keys than these.
func closed(required []string, properties object) object {
	out := object{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		out["required"] = required
	}
	return out
}

// listOf is a list of what items says.
func listOf(items any) object { return object{"type": "array", "items": items} }

// told is a part with a description.
func told(part object, description string) object {
	part["description"] = description
	return part
}

func encode(document object) []byte {
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	if err := out.Encode(document); err != nil {
		panic(fmt.Sprintf("a document of maps, lists, words and finite numbers cannot be encoded: %v", err))
	}
	return b.Bytes()
}
