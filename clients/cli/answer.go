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
