package intake

import (
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Place is where a field stands in a file.
type Place struct {
	File string
	strictyaml.Pos
}

// Places says where each field of a request came from. A field is named by its path as the service names it:
// "inspection.panels[0].film[2].total_um[1]".
type Places struct{ at map[string]Place }

func newPlaces() *Places { return &Places{at: map[string]Place{}} }

func (p *Places) put(path string, at Place) { p.at[path] = at }

// Of finds the place of a field, or of the nearest thing around it that stands in a file. Exact is true when the field
// itself does.
func (p *Places) Of(path string) (at Place, exact, ok bool) {
	exact = true
	for {
		if at, ok = p.at[path]; ok {
			return at, exact, true
		}
		if path == "" {
			return Place{}, false, false
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
		exact = false
	}
}
