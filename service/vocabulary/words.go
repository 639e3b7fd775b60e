package vocabulary

import (
	"strings"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Word is the short form of an enum value, as rules and people write it: SOFTNESS_VERY_SOFT is "very-soft". It is ""
// for the zero value, which every enum of the contract keeps for "not given".
func Word(value protoreflect.EnumValueDescriptor) string {
	if value == nil || value.Number() == 0 {
		return ""
	}
	enum, ok := value.Parent().(protoreflect.EnumDescriptor)
	if !ok {
		return "" // no value stands outside an enum
	}
	short := strings.TrimPrefix(string(value.Name()), prefix(enum))
	return strings.ToLower(strings.ReplaceAll(short, "_", "-"))
}

// WordOf is [Word] for a value of a generated enum type; a number outside the enum gives "".
func WordOf(value protoreflect.Enum) string {
	return Word(value.Descriptor().Values().ByNumber(value.Number()))
}

// Words lists an enum's words in the order of declaration, without the zero value.
func Words(enum protoreflect.EnumDescriptor) []string {
	var words []string
	for i := range enum.Values().Len() {
		if word := Word(enum.Values().Get(i)); word != "" {
			words = append(words, word)
		}
	}
	return words
}

// Value finds the number that a word stands for in an enum. The empty word is zero, "not given".
func Value(enum protoreflect.EnumDescriptor, word string) (protoreflect.EnumNumber, bool) {
	if word == "" {
		return 0, true
	}
	name := prefix(enum) + strings.ToUpper(strings.ReplaceAll(word, "-", "_"))
	value := enum.Values().ByName(protoreflect.Name(name))
	if value == nil {
		return 0, false
	}
	return value.Number(), true
}

// ValueOf is [Value] for a generated enum type E.
func ValueOf[E interface {
	~int32
	protoreflect.Enum
}](word string) (E, bool) {
	var zero E
	number, ok := Value(zero.Descriptor(), word)
	return E(number), ok
}

// prefix is what the contract's style puts before every value of an enum: SOFTNESS_ for Softness. The zero value ends
// in UNSPECIFIED, so the prefix is read off it instead of being guessed from the enum's name.
func prefix(enum protoreflect.EnumDescriptor) string {
	return strings.TrimSuffix(string(enum.Values().ByNumber(0).Name()), "UNSPECIFIED")
}

func ordered(enum protoreflect.EnumDescriptor) bool {
	scale, _ := proto.GetExtension(enum.Options(), glossladderv1.E_Scale).(*glossladderv1.ScaleOptions)
	return scale.GetOrdered()
}
