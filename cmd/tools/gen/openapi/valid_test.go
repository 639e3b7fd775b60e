package main

import (
	"os"
	"strings"
	"testing"

	"github.com/pb33f/libopenapi"
	validator "github.com/pb33f/libopenapi-validator"
)

// committed is the document that is served.
const committed = "../../../../service/httpapi/openapi.json"

// complaints are what an independent validator of OpenAPI says of a document.
func complaints(t *testing.T, text []byte) []string {
	t.Helper()
	document, err := libopenapi.NewDocument(text)
	if err != nil {
		return []string{err.Error()}
	}
	judge, errs := validator.NewValidator(document)
	if len(errs) > 0 {
		return []string{errs[0].Error()}
	}
	var out []string
	_, wrong := judge.ValidateDocument()
	for _, one := range wrong {
		out = append(out, one.Error())
		for _, detail := range one.SchemaValidationErrors {
			out = append(out, detail.Reason)
		}
	}
	if _, err := document.BuildV3Model(); err != nil { // resolves every reference
		out = append(out, err.Error())
	}
	return out
}

func TestTheCommittedDocumentIsValid(t *testing.T) {
	text, err := os.ReadFile(committed)
	if err != nil {
		t.Fatal(err)
	}
	if wrong := complaints(t, text); len(wrong) > 0 {
		t.Error(strings.Join(wrong, "\n"))
	}
	for name, change := range map[string][2]string{
		"a member that OpenAPI does not have": {`"operationId"`, `"operatoinId"`},
		"a schema that is not there":          {`"#/components/schemas/Estimate"`, `"#/components/schemas/Estimat"`},
		"a response without a description":    {`"description": "Done."`, `"descripton": "Done."`},
	} {
		if len(complaints(t, []byte(strings.Replace(string(text), change[0], change[1], 1)))) == 0 {
			t.Errorf("%s passed", name)
		}
	}
}
