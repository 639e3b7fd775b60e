package cond

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
)

const (
	// MaxSource is what keeps expr's recursive parser off the end of the stack:
	// half a million brackets end the process, and counting nodes does not help,
	// since a node is counted only after its children.
	MaxSource = 4 << 10
	maxNodes  = 500
)

// Mistake is something wrong in a condition. At counts runes from its start.
type Mistake struct {
	At      int
	Message string
	Hint    string
}

// letRune stands for the l of let in the text that expr sees: let is a keyword
// there, and let.NAME would not parse. It is a letter, so places do not move.
const letRune = 'ℓ'

const letName = string(letRune) + "et"

// parse reads the text into expr's tree.
func parse(src string) (ast.Node, *Mistake) {
	if strings.TrimSpace(src) == "" {
		return nil, &Mistake{Message: "the condition is empty", Hint: "write true for a rule that always holds"}
	}
	if len(src) > MaxSource {
		return nil, &Mistake{
			Message: fmt.Sprintf("the condition has %d bytes, at most %d are allowed", len(src), MaxSource),
			Hint:    "split the rule or name parts of it under let",
		}
	}
	// The parser reads no more than this; a whole configuration costs as much to make as the text to parse.
	cfg := &conf.Config{MaxNodes: maxNodes, DisableIfOperator: true}
	tree, err := parser.ParseWithConfig(renameLet(src), cfg)
	if err != nil {
		return nil, syntaxMistake(err)
	}
	if tree == nil || tree.Node == nil {
		return nil, &Mistake{Message: "the condition cannot be read"}
	}
	return tree.Node, nil
}

func syntaxMistake(err error) *Mistake {
	fe, ok := errors.AsType[*file.Error](err)
	if !ok {
		return &Mistake{Message: "the condition cannot be read: " + err.Error()}
	}
	msg := strings.ReplaceAll(fe.Message, letName, "let")
	if strings.Contains(msg, "maximum allowed nodes") {
		return &Mistake{
			At: fe.From, Message: fmt.Sprintf("the condition has more than %d parts", maxNodes),
			Hint: "split the rule or name parts of it under let",
		}
	}
	m := &Mistake{At: fe.From, Message: "the condition cannot be read: " + msg}
	if strings.Contains(msg, `Operator("=")`) {
		m.Hint = "equality is written =="
	}
	return m
}

// renameLet spells let.NAME so that expr reads a member of an identifier. It
// leaves strings and comments alone.
func renameLet(src string) string {
	in := []rune(src)
	out := []rune(src)
	for i := 0; i < len(in); i++ {
		switch r := in[i]; {
		case r == '"' || r == '\'' || r == '`':
			for i++; i < len(in) && in[i] != r; i++ {
				if in[i] == '\\' && r != '`' {
					i++
				}
			}
		case r == '/' && i+1 < len(in) && in[i+1] == '/':
			for i < len(in) && in[i] != '\n' {
				i++
			}
		case r == '/' && i+1 < len(in) && in[i+1] == '*':
			i += 2
			for i+1 < len(in) && (in[i] != '*' || in[i+1] != '/') {
				i++
			}
			i++
		case isNameRune(r):
			start := i
			for i+1 < len(in) && isNameRune(in[i+1]) {
				i++
			}
			if string(in[start:i+1]) == "let" && nextIs(in, i+1, '.') && !lastIs(in, start-1, '.') {
				out[start] = letRune
			}
		}
	}
	return string(out)
}

func isNameRune(r rune) bool { return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r) }

func nextIs(in []rune, i int, want rune) bool {
	for i < len(in) && unicode.IsSpace(in[i]) {
		i++
	}
	return i < len(in) && in[i] == want
}

func lastIs(in []rune, i int, want rune) bool {
	for i >= 0 && unicode.IsSpace(in[i]) {
		i--
	}
	return i >= 0 && in[i] == want
}
