package strictyaml_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// value parses "v: "+text and returns the value.
func value(t *testing.T, text string) *strictyaml.Node {
	t.Helper()
	node, problems := strictyaml.Parse("f.yaml", []byte("v: "+text+"\n"))
	require.Empty(t, problems)
	require.Len(t, node.Entries(), 1)
	return node.Entries()[0].Value
}

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{"0": 0, "12": 12, "-3.5": -3.5, "0.25": 0.25, "10.50": 10.5, "-0": 0, "100000000000000000000": 1e20} {
		t.Run(text, func(t *testing.T) {
			got, err := value(t, text).Number()
			require.NoError(t, err)
			assert.Equal(t, want, got)
		})
	}
}

func TestNumberRefuses(t *testing.T) {
	for _, row := range []struct{ text, want string }{
		{"010", `"010" is not a number; leave the leading zeros out`},
		{"-00.5", `"-00.5" is not a number; leave the leading zeros out`},
		{"1_000", `"1_000" is not a number; write the digits without _`},
		{".nan", `".nan" is not a number; write it in decimal digits, as 12 or -3.5`},
		{".inf", `".inf" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"-.Inf", `"-.Inf" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"NaN", `"NaN" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"0x1F", `"0x1F" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"0o17", `"0o17" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"1e3", `"1e3" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"1:30", `"1:30" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"1,5", `"1,5" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"--1", `"--1" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"-x", `"-x" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"+5", `"+5" is not a number; leave the plus sign out`},
		{".5", `".5" is not a number; write a zero before the point`},
		{"5.", `"5." is not a number; write digits after the point`},
		{"١٢", `"١٢" is not a number; write it in decimal digits, as 12 or -3.5`},
		{"123456789012345678901234567890123", `"12345678901234567890123456789012…" is not a number; at most 32 characters`},
		{`"12"`, `expected a number, found the text "12"; take the quotes away`},
		{"[1]", "expected a number, found a list"},
		{"{a: 1}", "expected a number, found a map"},
		{`""`, `expected a number, found the text ""; take the quotes away`},
	} {
		t.Run(row.text, func(t *testing.T) {
			_, err := value(t, row.text).Number()
			assert.EqualError(t, err, row.want)
		})
	}
}

func TestBool(t *testing.T) {
	for _, row := range []struct {
		text string
		want bool
		err  string
	}{
		{"true", true, ""},
		{"false", false, ""},
		{"yes", false, `"yes" is not true or false; write true`},
		{"on", false, `"on" is not true or false; write true`},
		{"True", false, `"True" is not true or false; write true`},
		{"no", false, `"no" is not true or false; write false`},
		{"off", false, `"off" is not true or false; write false`},
		{"1", false, `"1" is not true or false`},
		{"'true'", false, `expected true or false, found the text "true"; take the quotes away`},
	} {
		t.Run(row.text, func(t *testing.T) {
			got, err := value(t, row.text).Bool()
			assert.Equal(t, row.want, got)
			if row.err == "" {
				assert.NoError(t, err)
			} else {
				assert.EqualError(t, err, row.err)
			}
		})
	}
}

func TestTextIsAsWritten(t *testing.T) {
	for _, row := range []struct {
		name, text, want string
		quoted           bool
	}{
		{"yes stays a word", "yes", "yes", false},
		{"a number keeps its digits", "68.00", "68.00", false},
		{"a date is text", "2026-11-25", "2026-11-25", false},
		{"a condition", `paint.softness <= "soft" && !paint.wet`, `paint.softness <= "soft" && !paint.wet`, false},
		{"single quotes", "'it''s'", "it's", true},
		{"double quotes", `"a\tb \u00e9"`, "a\tb é", true},
		{"null in quotes", `"null"`, "null", true},
		{"a block", "|-\n  a\n  b", "a\nb", true},
	} {
		t.Run(row.name, func(t *testing.T) {
			n := value(t, row.text)
			assert.Equal(t, row.want, n.Text())
			assert.Equal(t, row.quoted, n.Quoted())
		})
	}
}

func TestByteOrderMarkAndWindowsLineEnds(t *testing.T) {
	node, problems := strictyaml.Parse("f.yaml", []byte("\ufeffa: 1\r\nb: |\r\n  x\r\n  y\r\nc: [é, ü]\r\n"))
	require.Empty(t, problems)
	e := node.Entries()
	require.Len(t, e, 3)
	assert.Equal(t, strictyaml.Pos{Line: 1, Col: 1}, e[0].KeyPos)
	assert.Equal(t, "x\ny\n", e[1].Value.Text())
	assert.Equal(t, strictyaml.Pos{Line: 4, Col: 3}, e[1].Value.PosOf(2))
	assert.Equal(t, strictyaml.Pos{Line: 5, Col: 8}, e[2].Value.Items()[1].Pos())
}

func TestNilNodeIsRefused(t *testing.T) {
	var n *strictyaml.Node
	assert.Equal(t, strictyaml.Refused, n.Kind())
	assert.Empty(t, n.Text()+n.File())
	assert.Empty(t, n.Entries())
	assert.Empty(t, n.Items())
	assert.False(t, n.Quoted())
	assert.Equal(t, strictyaml.Pos{}, n.PosOf(3))
	_, err := n.Number()
	assert.EqualError(t, err, "expected a number")
}
