package history

import (
	"encoding/json"
	"fmt"
	"unicode/utf8"
)

// packed are the files of a rule set as one document that a person can read, except for a file that is no text.
type packed struct {
	Text  map[string]string `json:"text,omitempty"`
	Bytes map[string][]byte `json:"bytes,omitempty"`
}

// PackRuleSet puts the files of a rule set, by name, into one document for the archive.
func PackRuleSet(files map[string][]byte) ([]byte, error) {
	p := packed{Text: map[string]string{}, Bytes: map[string][]byte{}}
	for name, text := range files {
		if utf8.Valid(text) {
			p.Text[name] = string(text)
		} else {
			p.Bytes[name] = text
		}
	}
	out, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("pack rule set: %w", err)
	}
	return out, nil
}

// UnpackRuleSet gives the files that [PackRuleSet] packed.
func UnpackRuleSet(document []byte) (map[string][]byte, error) {
	var p packed
	if err := json.Unmarshal(document, &p); err != nil {
		return nil, fmt.Errorf("unpack rule set: %w", err)
	}
	files := p.Bytes
	if files == nil {
		files = map[string][]byte{}
	}
	for name, text := range p.Text {
		files[name] = []byte(text)
	}
	return files, nil
}
