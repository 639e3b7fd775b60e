package strictyaml_test

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Each row's text holds the word zz once; the file shows where it stands.
func TestPosOfFindsTheWord(t *testing.T) {
	for name, text := range map[string]string{
		"plain":                            `a < 90 && zz > 3`,
		"plain after letters of two bytes": `é == ü && zz`,
		"plain over two lines":             "a < 90\n      && zz > 3",
		"plain over an empty line":         "a < 90\n\n\n      && zz",
		"single quotes":                    `'p == "matte" && zz'`,
		"single quotes with a quote":       `'it''s && zz'`,
		"single quotes over lines":         "'a \n\n   b zz'",
		"double quotes":                    `"a < 90 && zz > 3"`,
		"double quotes with escapes":       `"p == \"matte\" \u00e9\x41\U0001F600\t && zz"`,
		"double quotes over lines":         "\"a\n   b zz\"",
		"double quotes, line end escaped":  "\"a \\\n   b zz\"",
		"literal block":                    "|\n      a &&\n        zz",
		"literal block after empty lines":  "|+\n\n\n      a\n      zz\n",
		"literal block with a comment":     "|-  # note\n      a\n      zz",
		"literal block, indentation given": "|2\n       a\n      zz",
		"folded block":                     ">-\n      a &&\n      b\n\n      zz c",
		"folded block with an inset":       ">\n      a\n        b\n        zz\n      c",
		"in brackets":                      "[a, 'b', zz]",
		"in braces":                        "{a: b, c: d zz}",
	} {
		t.Run(name, func(t *testing.T) {
			src := "rules:\n  - v: " + text + "\n"
			node, problems := strictyaml.Parse("f.yaml", []byte(src))
			require.Empty(t, problems)
			before, _, _ := strings.Cut(src, "zz")
			line := strings.Count(before, "\n") + 1
			want := strictyaml.Pos{Line: line, Col: utf8.RuneCountInString(before[strings.LastIndex(before, "\n")+1:]) + 1}
			found := 0
			walk(node, func(n *strictyaml.Node) {
				if at := strings.Index(n.Text(), "zz"); at >= 0 {
					found++
					assert.Equal(t, want, n.PosOf(utf8.RuneCountInString(n.Text()[:at])), "%q", n.Text())
				}
			})
			require.Equal(t, 1, found)
		})
	}
}

func TestPosOfOutsideTheText(t *testing.T) {
	n := value(t, `"abc"`)
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 4}, n.Pos())
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 5}, n.PosOf(-7))
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 8}, n.PosOf(3), "the closing quote")
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 8}, n.PosOf(99))
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 5}, value(t, `""`).PosOf(0))
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 4}, value(t, `[a]`).PosOf(1), "a list has no text")
}

// Source: YAML 1.2.2, the examples named; their results are the specification's own. Each visible rune of the text must
// stand in the file where PosOf says.
func TestSpecificationExamples(t *testing.T) {
	for _, row := range []struct{ name, src, want string }{
		{"2.18 multi-line flow scalars, plain", "plain:\n  This unquoted scalar\n  spans many lines.\n", "This unquoted scalar spans many lines."},
		{"2.18 multi-line flow scalars, quoted", "quoted: \"So does this\n  quoted scalar.\\n\"\n", "So does this quoted scalar.\n"},
		{"7.5 double-quoted line breaks", "a: \"folded \n to a space,\t\n \n to a line feed, or \t\\\n \\ \tnon-content\"\n", "folded to a space,\nto a line feed, or \t \tnon-content"},
		{
			"8.10 folded lines", "a: >\n\n folded\n line\n\n next\n line\n   * bullet\n\n   * list\n   * lines\n\n last\n line\n\n# Comment\n",
			"\nfolded line\nnext line\n  * bullet\n\n  * list\n  * lines\n\nlast line\n",
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			node, problems := strictyaml.Parse("f.yaml", []byte(row.src))
			require.Empty(t, problems)
			n := node.Entries()[0].Value
			require.Equal(t, row.want, n.Text())
			lines := strings.Split(row.src, "\n")
			for k, r := range []rune(row.want) {
				if unicode.IsSpace(r) {
					continue
				}
				at := n.PosOf(k)
				require.Equal(t, string(r), string([]rune(lines[at.Line-1])[at.Col-1]), "rune %d at %s", k, at)
			}
		})
	}
}
