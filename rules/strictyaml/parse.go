package strictyaml

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"go.yaml.in/yaml/v4"
)

// Limits of one file. They are far above what people write by hand, and keep a hostile file cheap to refuse.
const (
	MaxBytes    = 1 << 20 // size of a file
	MaxDepth    = 32      // maps and lists inside one another
	MaxProblems = 100     // problems reported for one file; one more says how many were left out
)

// Parse reads one file. The file name only serves the problems.
//
// All problems that can be found are returned at once, sorted by place: every refused character, or the first breach of
// YAML's grammar (the parser cannot go on behind it), or everything this package refuses in a well-formed file. The node is
// nil only if there are problems; a node returned together with problems is good enough to look for further ones: the
// first of two equal keys stands, and values that were refused have the kind [Refused]. Parse never panics.
func Parse(file string, src []byte) (*Node, Problems) {
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	s, ps := readSource(file, src)
	if len(ps) > 0 {
		return nil, ps.Capped()
	}
	if p, found := s.directive(); found {
		return nil, Problems{p}
	}
	root, ps := s.compose(src)
	if root == nil {
		return nil, ps
	}
	t := &tree{src: s, problems: ps}
	node := t.node(root)
	t.problems.Sort()
	return node, t.problems.Capped()
}

// compose lets the parser read the one document of the file.
func (s *source) compose(src []byte) (*yaml.Node, Problems) {
	loader, err := yaml.NewLoader(bytes.NewReader(src), yaml.WithPlugin(limits{}))
	if err != nil {
		return nil, Problems{s.problem(Pos{1, 1}, "the YAML parser does not start", "")}
	}
	var first, second yaml.Node
	if err := loader.Load(&first); errors.Is(err, io.EOF) {
		return nil, Problems{s.problem(Pos{1, 1}, "the file is empty", "")}
	} else if err != nil {
		return nil, Problems{s.syntax(err)}
	}
	if first.Kind != yaml.DocumentNode || len(first.Content) != 1 {
		return nil, Problems{s.problem(Pos{1, 1}, "the file is empty", "")}
	}
	switch err := loader.Load(&second); {
	case errors.Is(err, io.EOF):
		return first.Content[0], nil
	case err != nil:
		return first.Content[0], Problems{s.syntax(err)}
	}
	return first.Content[0], Problems{s.problem(Pos{second.Line, second.Column}, "a second document starts here", "put it in a file of its own")}
}

// directive finds a % line before the document. Such lines change what tags and words mean.
func (s *source) directive() (Problem, bool) {
	for i, line := range s.lines {
		switch {
		case strings.HasPrefix(line, "%"):
			return s.problem(Pos{i + 1, 1}, "directives are not allowed", "take the line out"), true
		case strings.Trim(line, " \t") != "" && !strings.HasPrefix(strings.TrimLeft(line, " \t"), "#"):
			return Problem{}, false
		}
	}
	return Problem{}, false
}

// limits refuses deep nesting while the parser is still reading.
type limits struct{}

var errTooDeep = fmt.Errorf("nested deeper than %d levels", MaxDepth)

func (limits) CheckDepth(depth int, _ *yaml.DepthContext) error {
	if depth > MaxDepth {
		return errTooDeep
	}
	return nil
}

// CheckAlias is asked only when aliases are followed, which never happens here.
func (limits) CheckAlias(int, int) error { return nil }
