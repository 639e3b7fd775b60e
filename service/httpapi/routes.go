package httpapi

import (
	"fmt"
	"net/http"
	"regexp"
	"strings"

	"google.golang.org/genproto/googleapis/api/annotations"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"
)

// route is one path of the JSON API.
type route struct {
	method string
	path   *regexp.Regexp
	input  protoreflect.MessageDescriptor
	body   bool // the whole request is in the body, so that nothing may stand in the query
}

type routes []route

// routesOf reads the paths of every service that is registered.
func routesOf(server *grpc.Server) (routes, error) {
	var all routes
	for name := range server.GetServiceInfo() {
		found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			return nil, fmt.Errorf("service %s: %w", name, err)
		}
		service, ok := found.(protoreflect.ServiceDescriptor)
		if !ok {
			return nil, fmt.Errorf("%s is no service", name)
		}
		methods := service.Methods()
		for i := range methods.Len() {
			method := methods.Get(i)
			rule, ok := proto.GetExtension(method.Options(), annotations.E_Http).(*annotations.HttpRule)
			if !ok || rule == nil {
				continue
			}
			for _, rule := range append([]*annotations.HttpRule{rule}, rule.GetAdditionalBindings()...) {
				verb, template := patternOf(rule)
				all = append(all, route{method: verb, path: pathOf(template), input: method.Input(), body: rule.GetBody() == "*"})
			}
		}
	}
	return all, nil
}

func patternOf(rule *annotations.HttpRule) (verb, template string) {
	switch pattern := rule.GetPattern().(type) {
	case *annotations.HttpRule_Get:
		return http.MethodGet, pattern.Get
	case *annotations.HttpRule_Post:
		return http.MethodPost, pattern.Post
	case *annotations.HttpRule_Patch:
		return http.MethodPatch, pattern.Patch
	case *annotations.HttpRule_Put:
		return http.MethodPut, pattern.Put
	case *annotations.HttpRule_Delete:
		return http.MethodDelete, pattern.Delete
	}
	return "", ""
}

// variable is a part of a path template: {name}, {name=vehicles/*} or {name=**}.
var variable = regexp.MustCompile(`\{[^{}=]+(=[^{}]*)?\}`)

// pathOf is the expression of the paths that a template stands for.
func pathOf(template string) *regexp.Regexp {
	open := variable.ReplaceAllStringFunc(template, func(part string) string {
		if _, inside, ok := strings.Cut(strings.Trim(part, "{}"), "="); ok {
			return inside
		}
		return "*"
	})
	text := regexp.QuoteMeta(open)
	text = strings.ReplaceAll(text, `\*\*`, `.+`)
	text = strings.ReplaceAll(text, `\*`, `[^/:]+`)
	return regexp.MustCompile("^" + text + "$")
}
