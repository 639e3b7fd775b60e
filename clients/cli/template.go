package cli

import (
	"embed"
	"fmt"
)

// templates are files to fill in; as they stand they hold an invented example that the service answers.
//
//go:embed template/inspection.yaml template/trial.yaml template/readings.yaml template/jobtrial.yaml template/plan.yaml
var templates embed.FS

func (p *program) template(name string) error {
	text, err := templates.ReadFile("template/" + name)
	if err != nil {
		return fmt.Errorf("template: %w", err)
	}
	_, err = p.out.Write(text)
	return err
}
