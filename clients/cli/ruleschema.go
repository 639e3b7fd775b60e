package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/rules/jsonschema"
	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/vocabulary"
)

func (p *program) rulesSchema() *cobra.Command {
	out := ""
	cmd := &cobra.Command{
		Use:   "schema [table|cases|promises|facts]",
		Short: "Print or write JSON Schema for rule files, so that an editor completes and checks them",
		Long: "Editors that read JSON Schema complete keys, facts and words of rule files, and mark slips while you type.\n" +
			"Name a kind of file to print its schema, or give --out to write all of them into a folder beside the rules.\n" +
			"What conditions mean, an editor does not see: glossladder rules check does.",
		Example: "  glossladder rules schema --out schema\n  glossladder rules schema table > table.schema.json",
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) > 1:
				return &usageError{"name one kind of file at most: table, cases, promises or facts"}
			case len(args) == 1 && out != "":
				return &usageError{"--out writes every schema; leave " + args[0] + " out"}
			}
			return nil
		},
		RunE: running(func(_ *cobra.Command, args []string) error {
			schema, err := vocabulary.Schema()
			if err != nil {
				return err
			}
			documents := jsonschema.Documents(schema)
			switch {
			case out != "":
				return p.writeSchemas(documents, out)
			case len(args) == 1:
				return p.printSchema(documents, args[0])
			}
			return p.aboutSchemas(documents)
		}),
	}
	cmd.Flags().StringVar(&out, "out", "", "write every schema into this `folder`")
	return cmd
}

func (p *program) printSchema(documents []jsonschema.Document, name string) error {
	var names []string
	for _, d := range documents {
		if d.Name == name {
			_, err := p.out.Write(d.JSON)
			return err
		}
		names = append(names, d.Name)
	}
	says := fmt.Sprintf("there is no schema %q; there are %s", name, strings.Join(names, ", "))
	if near := strictyaml.Nearest(name, names); near != "" {
		says = fmt.Sprintf("there is no schema %q; did you mean %s?", name, near)
	}
	return &usageError{says}
}

func (p *program) aboutSchemas(documents []jsonschema.Document) error {
	fmt.Fprintln(p.out, "Schemas of rule files, for editors:")
	for _, d := range documents {
		fmt.Fprintf(p.out, "  %-10s for %s\n", d.Name, d.Files)
	}
	fmt.Fprintln(p.out, "Print one:       glossladder rules schema table\nWrite them all:  glossladder rules schema --out schema")
	return nil
}

// writeSchemas writes every schema into a folder and says how an editor is told of them.
func (p *program) writeSchemas(documents []jsonschema.Document, dir string) error {
	if err := outsideRules(dir); err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil { //nolint:gosec // read by editors
		return err
	}
	for _, d := range documents {
		if err := os.WriteFile(filepath.Join(dir, d.File()), d.JSON, 0o644); err != nil { //nolint:gosec // read by editors
			return err
		}
	}
	fmt.Fprintf(p.out, "%d schemas are in %s. Tell your editor by the first line of a file, with the way from that file:\n", len(documents), dir)
	for _, d := range documents {
		up := ".."
		if d.Name == "cases" {
			up = "../.." // they lie one folder deeper
		}
		fmt.Fprintf(p.out, "  # yaml-language-server: $schema=%s/%s/%s\n", up, filepath.Base(dir), d.File())
	}
	return nil
}

// outsideRules refuses a rule folder, and a folder in one: a set with files that do not belong there does not load.
func outsideRules(dir string) error {
	full, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	for _, folder := range []string{full, filepath.Dir(full)} {
		if _, err := os.Stat(filepath.Join(folder, "catalogue.yaml")); err == nil {
			return fmt.Errorf("%s lies in a rule folder, which would not load with schemas in it; name a folder beside it", dir)
		}
	}
	return nil
}
