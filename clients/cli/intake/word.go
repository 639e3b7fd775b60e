package intake

import (
	"errors"
	"fmt"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// Word reads a word of a closed list, as files may write it. The error says which words there are.
func Word(text string, enum protoreflect.EnumDescriptor) (protoreflect.EnumNumber, error) {
	number, message, hint := word(text, enum)
	if message != "" {
		return 0, errors.New(message + "; " + hint)
	}
	return number, nil
}

// word reads a word of a closed list: "very-soft", in any letter case, with spaces or underscores for hyphens, or as the
// contract's full name. Otherwise it says what is wrong and which words there are.
func word(text string, enum protoreflect.EnumDescriptor) (number protoreflect.EnumNumber, message, hint string) {
	if full := enum.Values().ByName(protoreflect.Name(strings.ToUpper(text))); full != nil {
		return full.Number(), "", ""
	}
	short := strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(strings.TrimSpace(text)))
	if short != "" {
		if number, ok := vocabulary.Value(enum, short); ok && number != 0 {
			return number, "", ""
		}
	}
	words := vocabulary.Words(enum)
	hint = "the words are " + strings.Join(words, ", ")
	if near := strictyaml.Nearest(short, words); near != "" {
		hint = fmt.Sprintf("did you mean %s? %s", near, hint)
	}
	return 0, fmt.Sprintf("%s is not one of its words", shown(text)), hint
}
