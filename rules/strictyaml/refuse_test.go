package strictyaml_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

func TestParseRefuses(t *testing.T) {
	for _, row := range []struct {
		name, src string
		want      []string
	}{
		{"a key given twice", "a: 1\nb: 2\na: 3\n", []string{`f.yaml:3:1: the key "a" is given twice; the first is on line 1`}},
		{"the same key in two spellings", "{a: 1, 'a': 2}\n", []string{`f.yaml:1:8: the key "a" is given twice; the first is on line 1`}},
		{"an anchor and its alias", "a: &x 1\nb: *x\n", []string{
			"f.yaml:1:4: the anchor &x is not allowed; take it out, or put the whole text in quotes",
			"f.yaml:2:4: the alias *x is not allowed; write the value out",
		}},
		{"an alias without an anchor", "b: *x\n", []string{"f.yaml:1:4: an anchor or alias (a word after & or *) is not allowed; write the value out, or put the text in quotes"}},
		{"a tag", "a: !!str 3\n", []string{"f.yaml:1:4: a tag (a word after !) is not allowed; take it out, or put the whole text in quotes"}},
		{"an unknown tag", "a: !thing {b: 1}\n", []string{"f.yaml:1:4: a tag (a word after !) is not allowed; take it out, or put the whole text in quotes"}},
		{"the empty tag", "a: ! b\n", []string{"f.yaml:1:4: a tag (a word after !) is not allowed; take it out, or put the whole text in quotes"}},
		{"a tag of no known handle", "a: !x!y b\n", []string{"f.yaml:1:4: a tag (a word after !) is not allowed; put the whole text in quotes"}},
		{"a merge key", "a:\n  <<: {b: 1}\n", []string{"f.yaml:2:3: merge keys (<<) are not allowed; write the keys out"}},
		{"a list as a key", "? [a]\n: 1\n", []string{"f.yaml:1:3: a key must be a single word or text"}},
		{"an empty key", "'': 1\n", []string{"f.yaml:1:1: the key is left out"}},
		{"null as a key", "~: 1\n", []string{"f.yaml:1:1: ~ is not a value here; leave the key out, or put the text in quotes"}},
		{"a value left out", "a:\nb: 1\n", []string{`f.yaml:1:3: the value is left out; write "" for an empty text, or leave the key out`}},
		{"an item left out", "-\n- a\n", []string{`f.yaml:1:2: the value is left out; write "" for an empty text, or leave the key out`}},
		{"a tilde", "a: ~\n", []string{"f.yaml:1:4: ~ is not a value here; leave the key out, or put the text in quotes"}},
		{"null in three spellings", "[null, Null, NULL]\n", []string{
			"f.yaml:1:2: null is not a value here; leave the key out, or put the text in quotes",
			"f.yaml:1:8: Null is not a value here; leave the key out, or put the text in quotes",
			"f.yaml:1:14: NULL is not a value here; leave the key out, or put the text in quotes",
		}},
		{"a second document", "a: 1\n---\nb: 2\n", []string{"f.yaml:2:1: a second document starts here; put it in a file of its own"}},
		{"an empty second document, and a mistake before it", "a: 1\na: 2\n---\n", []string{
			`f.yaml:2:1: the key "a" is given twice; the first is on line 1`,
			"f.yaml:3:1: a second document starts here; put it in a file of its own",
		}},
		{"a broken second document", "a: 1\n---\nb: [\n", []string{"f.yaml:3:5: a value is expected here; check the indentation, and put text with a special character in quotes"}},
		{"an empty file", "", []string{"f.yaml:1:1: the file is empty"}},
		{"only a comment", "# later\n", []string{"f.yaml:1:1: the file is empty"}},
		{"a directive", "# x\n%YAML 1.1\n---\na: 1\n", []string{"f.yaml:2:1: directives are not allowed; take the line out"}},
		{"tabs in the indentation, each", "a:\n\tb: 1\n  \tc: 1\n", []string{
			"f.yaml:2:1: tab in the indentation; use spaces",
			"f.yaml:3:3: tab in the indentation; use spaces",
		}},
		{"text that is not UTF-8", "a: é\nb: é\xff\n", []string{"f.yaml:2:5: the text is not UTF-8 here; save the file as UTF-8"}},
		{"UTF-16", "\xff\xfea\x00", []string{"f.yaml:1:1: the text is not UTF-8 here; save the file as UTF-8"}},
		{"a control character", "a: x\x07\n", []string{"f.yaml:1:5: the control character U+0007 is not allowed; take it out, or write it as an escape in double quotes"}},
		{"a line separator", "a: x\u2028y\n", []string{"f.yaml:1:5: the line separator U+2028 is not allowed; take it out, or write it as an escape in double quotes"}},
		{"a carriage return alone", "a: 1\rb: 2\n", []string{"f.yaml:1:5: a carriage return inside a line is not allowed; take it out, or write it as an escape in double quotes"}},
		{"a byte order mark inside", "a: \ufeffb\n", []string{"f.yaml:1:4: a byte order mark inside the text is not allowed; take it out, or write it as an escape in double quotes"}},
		{"20,000 nested brackets", strings.Repeat("[", 20_000), []string{"f.yaml:1:33: nested deeper than 32 levels; make it flatter"}},
		{"20,000 nested dashes", strings.Repeat("- ", 20_000), []string{"f.yaml:1:65: nested deeper than 32 levels; make it flatter"}},
		{"a colon in plain text", "because: Soft paint: careful\n", []string{"f.yaml:1:20: a colon is not allowed here; check the indentation, or put the text with the colon in quotes"}},
		{"text behind a quote", "when: \"dark\" == paint.shade\n", []string{"f.yaml:1:14: a key is expected here; check the indentation, and put text with a special character in quotes"}},
		{"an open list", "a: [1, 2\nb: 3\n", []string{"f.yaml:1:4: the list that opens here is not closed, or lacks a comma; close it with ]"}},
		{"an open map", "a: {b: 1\n", []string{"f.yaml:1:4: the map that opens here is not closed, or lacks a comma; close it with }"}},
		{"an open quote", "a: 'x\nb: 1\n", []string{"f.yaml:1:4: the quote that opens here is never closed; close it"}},
		{"a bad escape", `a: "\q"` + "\n", []string{"f.yaml:1:5: this backslash begins no known escape; use single quotes, where a backslash is only a backslash"}},
		{"half a surrogate pair", `a: "\uD83D"` + "\n", []string{"f.yaml:1:7: this escape names no character"}},
		{"a reserved character", "a: @x\n", []string{`f.yaml:1:4: a value cannot start with '@'; put the whole text in quotes`}},
		{"a key without a colon", "a: 1\nb\nc: 2\n", []string{"f.yaml:2:1: the key that begins here has no colon on its line; check the indentation, and put text with a special character in quotes"}},
		{"a list item beside its key", "a: - b\n", []string{"f.yaml:1:4: a list item is not allowed here; start the list on a line of its own"}},
		{"a map key among list items", "- a\nb: 1\n", []string{"f.yaml:2:1: a list item (- ...) is expected here; check the indentation, and put text with a special character in quotes"}},
		{"a negation that looks like a tag", "when: !paint.wet && film.known\n", []string{"f.yaml:1:7: a tag (a word after !) is not allowed; take it out, or put the whole text in quotes"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, problems := strictyaml.Parse("f.yaml", []byte(row.src))
			assert.Equal(t, strings.Join(row.want, "\n"), problems.Error())
		})
	}
}

func TestParseRefusesAHugeFile(t *testing.T) {
	node, problems := strictyaml.Parse("f.yaml", make([]byte, strictyaml.MaxBytes+1))
	require.Len(t, problems, 1)
	assert.Nil(t, node)
	assert.Equal(t, "f.yaml:1:1: the file has 1048577 bytes, at most 1048576 are read; split it", problems.Error())
}

// Nine levels of nine aliases: 387 million leaves if any were followed.
func TestParseNeverFollowsAliases(t *testing.T) {
	var b strings.Builder
	b.WriteString("a0: &a0 x\n")
	for i := 1; i <= 9; i++ {
		fmt.Fprintf(&b, "a%d: &a%d [%s*a%d]\n", i, i, strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 8), i-1)
	}
	node, problems := strictyaml.Parse("f.yaml", []byte(b.String()))
	require.Len(t, problems, 10+9*9)
	nodes := 0
	walk(node, func(*strictyaml.Node) { nodes++ })
	assert.Equal(t, 1+10+9*9, nodes)
}

func TestParseCapsTheProblems(t *testing.T) {
	_, problems := strictyaml.Parse("f.yaml", []byte(strings.Repeat("a: 1\n", 250)))
	require.Len(t, problems, strictyaml.MaxProblems+1)
	assert.Equal(t, "f.yaml:102:1: 149 more problems from here on", problems[strictyaml.MaxProblems].Error())
}

func TestARefusedValueKeepsItsPlace(t *testing.T) {
	node, problems := strictyaml.Parse("f.yaml", []byte("a: ~\nb: [x, *y]\n"))
	require.Len(t, problems, 1, "an unknown alias ends the parser's work")
	require.Nil(t, node)

	node, problems = strictyaml.Parse("f.yaml", []byte("a: ~\nb: {c: , d: 1}\n"))
	require.Len(t, problems, 2)
	require.Len(t, node.Entries(), 2)
	assert.Equal(t, strictyaml.Refused, node.Entries()[0].Value.Kind())
	assert.Equal(t, "a refused value", node.Entries()[0].Value.Kind().String())
	assert.Equal(t, strictyaml.Pos{Line: 2, Col: 10}, node.Entries()[1].Value.Entries()[1].KeyPos)
}
