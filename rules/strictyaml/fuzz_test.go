package strictyaml_test

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// FuzzParse: nothing panics, every place lies inside the file, a map has each key once, and the places of a scalar's text
// never run backwards.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"", "\ufeffa: 1\r\nb: two\r\n", "a: [1, {b: 2}]\n", "a: |2-\n   x\n\n  y\n", "a: >+\n  x\n   y\n\n\n", "a: \"x\\u00e9 \\\n  y\"\n",
		"a: 'it''s\n  two\n\n  three'\n", "a: &x 1\nb: *x\n", "a: 1\na: 2\n", "a: 1\n---\nb: 2\n", "\ta: 1\n", "{[a]: b, <<: c, ~: d}\n", "%YAML 1.2\n---\na\n",
		"a: !!str b\n", "a: \xff\n", "- - - a\n-\n", "? a\n: b\n", "a: b c\n  d\n\n  e\n", strings.Repeat("[", 40), "a: \"\\U0001F600\"\n", "x: >\n\n  a\n  b\n \n\n   c\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		node, problems := strictyaml.Parse("f.yaml", src)
		lines := strings.Split(strings.TrimPrefix(string(src), "\ufeff"), "\n")
		inside := func(what string, p strictyaml.Pos) {
			require.True(t, 1 <= p.Line && p.Line <= len(lines), "%s at %s of %d lines", what, p, len(lines))
			require.True(t, 1 <= p.Col && p.Col <= utf8.RuneCountInString(lines[p.Line-1])+1, "%s at %s: %q", what, p, lines[p.Line-1])
		}
		for _, p := range problems {
			inside(p.Message, p.Pos)
			assert.NotEmpty(t, p.Message)
			assert.NotContains(t, p.Message+p.Hint, "yaml.", "a Go name in a message")
		}
		if node == nil {
			require.NotEmpty(t, problems)
			return
		}
		walk(node, func(n *strictyaml.Node) {
			inside("node", n.Pos())
			keys := map[string]bool{}
			for _, e := range n.Entries() {
				inside("key", e.KeyPos)
				require.NotNil(t, e.Value)
				require.False(t, keys[e.Key], "key %q twice", e.Key)
				keys[e.Key] = true
			}
			if v, err := n.Number(); err == nil {
				require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
			}
			_, _ = n.Bool()
			if n.Kind() == strictyaml.Scalar && len(n.Text()) < 300 {
				before := n.PosOf(-1)
				for k := range utf8.RuneCountInString(n.Text()) + 2 {
					at := n.PosOf(k)
					inside("rune", at)
					require.False(t, at.Line < before.Line || (at.Line == before.Line && at.Col < before.Col), "rune %d of %q at %s after %s", k, n.Text(), at, before)
					before = at
				}
			}
		})
	})
}

func walk(n *strictyaml.Node, visit func(*strictyaml.Node)) {
	visit(n)
	for _, e := range n.Entries() {
		walk(e.Value, visit)
	}
	for _, item := range n.Items() {
		walk(item, visit)
	}
}
