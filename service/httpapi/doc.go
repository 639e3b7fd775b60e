// Package httpapi answers for the gRPC services over plain HTTP: as JSON at the paths that the contract gives its methods, as
// Connect and as gRPC-Web; and it serves health and the OpenAPI document.
//
// It owns what HTTP adds (who may call from a browser, media types, sizes, the JSON of errors) and translates with a
// transcoder. It decides nothing: every call ends in the same server, behind the same checks, as one that came as gRPC.
package httpapi
