package vocabulary

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Learn says, for each fact that somebody can be asked for, what to do to learn it: "measure the panel temperature".
// Facts with the same words are learned by one piece of work. Facts that nobody can be asked for are absent.
func Learn() map[string]string {
	root := (&glossladderv1.Facts{}).ProtoReflect().Descriptor()
	learn := map[string]string{}
	for i := range root.Fields().Len() {
		group := root.Fields().Get(i)
		for k := range group.Message().Fields().Len() {
			field := group.Message().Fields().Get(k)
			if words := notesOf(field).GetFact().GetLearn(); words != "" {
				learn[string(group.Name())+"."+string(field.Name())] = words
			}
		}
	}
	return learn
}

// SameAs is the name of the fact whose unit and bounds a field of a request shares, or "" when it shares none.
func SameAs(field protoreflect.FieldDescriptor) string {
	return notesOf(field).GetSameAs()
}
