package cli

import (
	"bytes"
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

func (p *program) outputFlag(cmd *cobra.Command) {
	cmd.Flags().VarP(&p.output, "output", "o", "text for people, json for programs: the contract's own message")
}

// asJSON says whether the answer goes to a program.
func (p *program) asJSON() bool { return p.output.value == "json" }

// json writes an answer as the contract's JSON. The protobuf library varies its spaces on purpose, so the layout is made
// here: the same answer has the same bytes.
func (p *program) json(answer proto.Message) error {
	written, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(answer)
	if err != nil {
		return fmt.Errorf("write the answer as JSON: %w", err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, written, "", "  "); err != nil {
		return fmt.Errorf("write the answer as JSON: %w", err)
	}
	out.WriteByte('\n')
	_, err = out.WriteTo(p.out)
	return err
}

// part is one of several answers that are written together.
type part struct {
	name   string
	answer proto.Message
}

// jsonParts writes several answers as one object, each under its name.
func (p *program) jsonParts(parts ...part) error {
	var out bytes.Buffer
	for i, each := range parts {
		written, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(each.answer)
		if err != nil {
			return fmt.Errorf("write the answer as JSON: %w", err)
		}
		before := ","
		if i == 0 {
			before = "{"
		}
		fmt.Fprintf(&out, "%s%q:%s", before, each.name, written)
	}
	out.WriteByte('}')
	var laid bytes.Buffer
	if err := json.Indent(&laid, out.Bytes(), "", "  "); err != nil {
		return fmt.Errorf("write the answer as JSON: %w", err)
	}
	laid.WriteByte('\n')
	_, err := laid.WriteTo(p.out)
	return err
}
