package vocabulary

import "google.golang.org/protobuf/reflect/protoreflect"

// SameAs is the name of the fact whose unit and bounds a field of a request shares, or "" when it shares none.
func SameAs(field protoreflect.FieldDescriptor) string {
	return notesOf(field).GetSameAs()
}
