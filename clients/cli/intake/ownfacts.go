package intake

import (
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/structpb"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// ownFacts fills a map from names to values of any kind: the shop's own facts, of which only the rules in force know what they may
// be. A plain true or false is a flag, a plain number a number, everything else a word.
func (r *reader) ownFacts(n *strictyaml.Node, into protoreflect.Map, what, path string) {
	r.keep(path, n)
	if !r.expect(n, strictyaml.Map, what, "write a name and a value on each line, such as fleet: true") {
		return
	}
	for _, entry := range n.Entries() {
		at := path + "[" + entry.Key + "]"
		r.keep(at, entry.Value)
		if r.expect(entry.Value, strictyaml.Scalar, entry.Key, "it is a number, a word, or true or false") {
			into.Set(protoreflect.ValueOfString(entry.Key).MapKey(), protoreflect.ValueOfMessage(ownValue(entry.Value).ProtoReflect()))
		}
	}
}

func ownValue(n *strictyaml.Node) *structpb.Value {
	if flag, err := n.Bool(); err == nil {
		return structpb.NewBoolValue(flag)
	}
	if number, err := n.Number(); err == nil {
		return structpb.NewNumberValue(number)
	}
	return structpb.NewStringValue(n.Text())
}
