package httpapi

import (
	_ "embed"
	"net/http"
)

// openAPI is generated from the contract by cmd/tools/generate.sh.
//
//go:embed openapi.json
var openAPI []byte

// OpenAPI is the description of the JSON API, an OpenAPI 3.1 document in JSON. It is a copy, the caller's own.
func OpenAPI() []byte { return append([]byte(nil), openAPI...) }

func serveOpenAPI(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(openAPI)
}
