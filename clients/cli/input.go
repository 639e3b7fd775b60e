package cli

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/intake"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// fromStdin is the file name that stands for standard input.
const fromStdin = "-"

// input is the flags that say what is read and how.
type input struct {
	template bool
	readings string
	filmUnit choice
	heatUnit choice
}

func newInput() *input {
	return &input{
		filmUnit: choice{value: "um", words: []string{"um", "mil"}},
		heatUnit: choice{value: "c", words: []string{"c", "f"}},
	}
}

func (i *input) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&i.template, "template", false, "print a file to fill in, with what each field means")
	cmd.Flags().StringVar(&i.readings, "readings", "", "CSV file with readings to add; its columns: panel, spot, when, film_um or film_mil, clear_um or clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, near_edge")
	cmd.Flags().Var(&i.filmUnit, "film-unit", "unit of film thicknesses written without one")
	cmd.Flags().Var(&i.heatUnit, "temperature-unit", "unit of temperatures written without one")
}

func (i *input) bare() intake.Bare {
	return intake.Bare{FilmMil: i.filmUnit.value == "mil", HeatF: i.heatUnit.value == "f"}
}

// oneFile accepts the name of one file, or none when the template is asked for.
func (i *input) oneFile(_ *cobra.Command, args []string) error {
	switch {
	case i.template && len(args) > 0:
		return &usageError{"--template takes no file; it prints one to fill in"}
	case i.template:
		return nil
	case len(args) != 1:
		return &usageError{"name one file, or - for standard input; --template prints one to fill in"}
	case args[0] == fromStdin && i.readings == fromStdin:
		return &usageError{"standard input can be the file or the readings, not both"}
	}
	return nil
}

// read reads a file or standard input. What is too big to be read anyway is cut a little above the limit, so that the
// reader of its contents can say so.
func (p *program) read(name string) (intake.Source, error) {
	if name == fromStdin {
		text, err := io.ReadAll(io.LimitReader(p.in, strictyaml.MaxBytes+1))
		if err != nil {
			return intake.Source{}, fmt.Errorf("read standard input: %w", err)
		}
		return intake.Source{Name: "(standard input)", Text: text}, nil
	}
	file, err := os.Open(name)
	if err != nil {
		return intake.Source{}, err
	}
	text, err := io.ReadAll(io.LimitReader(file, strictyaml.MaxBytes+1))
	if err := errors.Join(err, file.Close()); err != nil {
		return intake.Source{}, err
	}
	return intake.Source{Name: name, Text: text}, nil
}

// table reads the file of readings, nil when there is none.
func (p *program) table(name string) (*intake.Readings, strictyaml.Problems, error) {
	if name == "" {
		return nil, nil, nil
	}
	src, err := p.read(name)
	if err != nil {
		return nil, nil, err
	}
	readings, problems := intake.ReadTable(src)
	return readings, problems, nil
}
