package vocabulary

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// comments.json is written by cmd/tools/generate.sh from the comments of the contract.
//
//go:embed comments.json
var commentFile []byte

// meanings are the contract's comments by full name.
type meanings map[string]string

func readMeanings() (meanings, error) {
	var all meanings
	if err := json.Unmarshal(commentFile, &all); err != nil {
		return nil, fmt.Errorf("read the contract's comments: %w", err)
	}
	return all, nil
}

// of is the meaning of a declaration: its comment without the remark on what unset means, which is about the wire.
func (m meanings) of(d protoreflect.Descriptor) string {
	meaning, _, _ := strings.Cut(m[string(d.FullName())], " Unset:")
	return meaning
}

// ofNumber is the meaning of a number whose unit is told apart from it.
func (m meanings) ofNumber(d protoreflect.Descriptor, unit string) string {
	return strings.TrimSuffix(m.of(d), " In "+unit+".")
}

// ofMessage is the meaning of a message without the name that its comment begins with: "What to do after a trial."
func (m meanings) ofMessage(d protoreflect.MessageDescriptor) string {
	meaning := strings.TrimPrefix(m.of(d), string(d.Name())+" is ")
	if meaning == "" {
		return ""
	}
	return strings.ToUpper(meaning[:1]) + meaning[1:]
}
