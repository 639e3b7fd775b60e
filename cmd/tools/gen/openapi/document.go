package main

import (
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// about opens the document. It says what holds for every call, so that no operation has to.
const about = `Glossladder over JSON. The same API is served as gRPC, Connect and gRPC-Web on the same port.

**Names and units.** Fields are named as in the contract, with their units at the end: ` + "`panel_c`" + ` is in °C, ` + "`total_um`" + ` in µm, ` +
	"`work_min`" + ` in minutes. What was not measured is left out; it is never zero.

**Errors.** Every answer that is not 200 is a ` + "`Status`" + `. One of 400 lists every violation at once, by the path of its field, with the value
and the allowed range.

**Sending a call again.** Calls that make or record something take a ` + "`request_id`" + ` that the caller makes up. Sent again with the same id,
a call does its work once and gives the first answer again.

**Who may call.** The service asks for no key and so listens on its own machine only; pages of other sites are refused.`

// builder gathers the schemas that the operations name.
type builder struct {
	schemas map[protoreflect.FullName]object
	waiting []protoreflect.Descriptor // schemas that are named and not yet written
	bound   map[protoreflect.FullName]map[protoreflect.Name]bool
}

func describe(services []protoreflect.ServiceDescriptor) (object, error) {
	b := &builder{schemas: map[protoreflect.FullName]object{}, bound: map[protoreflect.FullName]map[protoreflect.Name]bool{}}
	var tags []any
	var paths pathItems
	for _, service := range services {
		tags = append(tags, object{}.with("name", string(service.Name())).with("description", comment(service)))
		for i := range service.Methods().Len() {
			if err := b.method(service.Methods().Get(i), &paths); err != nil {
				return nil, err
			}
		}
	}
	return object{
		{"openapi", "3.1.0"},
		{"info", object{
			{"title", "Glossladder"},
			{"version", "v1"},
			{"description", about},
			{"license", object{{"name", "Apache License 2.0"}, {"identifier", "Apache-2.0"}}},
		}},
		{"servers", []any{object{{"url", "/"}, {"description", "The service that gave this document."}}}},
		{"tags", tags},
		{"paths", paths.object()},
		{"components", object{{"schemas", b.components()}, {"responses", object{{"Error", errorResponse()}}}}},
	}, nil
}

// comment is the comment of the contract, its paragraphs kept and its lines joined.
func comment(d protoreflect.Descriptor) string {
	text := d.ParentFile().SourceLocations().ByDescriptor(d).LeadingComments
	var paragraphs []string
	for paragraph := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		paragraphs = append(paragraphs, strings.Join(strings.Fields(paragraph), " "))
	}
	return strings.Join(paragraphs, "\n\n")
}

// errorResponse is what every call may answer instead.
func errorResponse() object {
	example := object{
		{"code", 3},
		{"message", "request is not valid: inspection.panels[0].panel_c: 300 is not allowed: from -40 to 120 °C"},
		{"details", []any{object{
			{"@type", "type.googleapis.com/google.rpc.BadRequest"},
			{"field_violations", []any{object{
				{"field", "inspection.panels[0].panel_c"}, {"description", "300 is not allowed: from -40 to 120 °C"}, {"reason", "DOUBLE_GTE_LTE"},
			}}},
		}}},
	}
	return object{
		{"description", "The call was not done. What the code means stands in google.rpc.Code; 400, 404, 409, 413, 415 and the like are the HTTP status beside it."},
		{"content", object{{"application/json", object{{"schema", ref("Status")}, {"example", example}}}}},
	}
}

// statusSchemas are those of errors, which no method of the contract names.
func statusSchemas() []member {
	text := func(says string) object { return object{{"type", "string"}, {"description", says}} }
	violation := object{
		{"type", "object"},
		{"properties", object{
			{"field", text("Path of the field: inspection.panels[0].panel_c.")},
			{"description", text("What is wrong, with the value and what is allowed.")},
			{"reason", text("The rule that was broken, for programs.")},
			{"localized_message", object{{"type", []string{"object", "null"}}, {"description", "Not used."}}},
		}},
	}
	detail := object{
		{"type", "object"},
		{"description", "More about the error, of the kind that @type names; with a 400 most often google.rpc.BadRequest."},
		{"properties", object{
			{"@type", text("type.googleapis.com/ and the name of a message.")},
			{"field_violations", object{{"type", "array"}, {"items", ref("FieldViolation")}, {"description", "Of a google.rpc.BadRequest: every violation."}}},
		}},
		{"required", []string{"@type"}},
		{"additionalProperties", true},
	}
	status := object{
		{"type", "object"},
		{"description", "An error, as google.rpc.Status."},
		{"properties", object{
			{"code", object{{"type", "integer"}, {"format", "int32"}, {"description", "google.rpc.Code: 3 is INVALID_ARGUMENT, 5 NOT_FOUND, 10 ABORTED."}}},
			{"message", text("What is wrong and a way out, for a developer.")},
			{"details", object{{"type", "array"}, {"items", ref("ErrorDetail")}, {"description", "More about it."}}},
		}},
		{"required", []string{"code", "message"}},
	}
	return []member{{"ErrorDetail", detail}, {"FieldViolation", violation}, {"Status", status}}
}
