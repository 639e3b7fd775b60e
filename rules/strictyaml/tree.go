package strictyaml

import (
	"fmt"

	"go.yaml.in/yaml/v4"
)

// tree turns the parser's nodes into ours and refuses what the grammar allows and we do not.
type tree struct {
	src      *source
	problems Problems
}

func (t *tree) refuse(at Pos, message, hint string) {
	t.problems = append(t.problems, t.src.problem(at, message, hint))
}

func (t *tree) node(y *yaml.Node) *Node {
	n := &Node{src: t.src, pos: t.src.inside(Pos{y.Line, y.Column})}
	t.properties(n.pos, y)
	switch y.Kind {
	case yaml.MappingNode:
		n.kind = Map
		n.entries = t.entries(y)
	case yaml.SequenceNode:
		n.kind = List
		for _, item := range y.Content {
			n.items = append(n.items, t.node(item))
		}
	case yaml.ScalarNode:
		t.scalar(n, y)
	case yaml.AliasNode:
		t.refuse(n.pos, fmt.Sprintf("the alias *%s is not allowed", y.Value), "write the value out")
	default:
		t.refuse(n.pos, "this value is not allowed", "")
	}
	return n
}

// properties refuses a tag or an anchor in front of a value. A negated condition without quotes (!wet && cold) is both to
// the parser, and one complaint is enough.
func (t *tree) properties(at Pos, y *yaml.Node) {
	switch {
	case y.Style&yaml.TaggedStyle != 0 || y.Tag == "!":
		t.refuse(at, "a tag (a word after !) is not allowed", "take it out, or put the whole text in quotes")
	case y.Anchor != "":
		t.refuse(at, fmt.Sprintf("the anchor &%s is not allowed", y.Anchor), "take it out, or put the whole text in quotes")
	}
}

func (t *tree) scalar(n *Node, y *yaml.Node) {
	n.style = styleOf(y)
	if n.style == plain {
		switch y.Value {
		case "":
			t.refuse(n.pos, "the value is left out", `write "" for an empty text, or leave the key out`)
			return
		case "~", "null", "Null", "NULL":
			t.refuse(n.pos, y.Value+" is not a value here", "leave the key out, or put the text in quotes")
			return
		}
	}
	n.kind, n.text = Scalar, y.Value
}

func (t *tree) entries(y *yaml.Node) []Entry {
	var entries []Entry
	first := make(map[string]Pos, len(y.Content)/2)
	for i := 0; i+1 < len(y.Content); i += 2 {
		key, ok := t.key(y.Content[i])
		value := t.node(y.Content[i+1])
		if !ok {
			continue
		}
		if before, twice := first[key.text]; twice {
			t.refuse(key.pos, fmt.Sprintf("the key %s is given twice", shown(key.text)), fmt.Sprintf("the first is on line %d", before.Line))
			continue
		}
		first[key.text] = key.pos
		entries = append(entries, Entry{Key: key.text, KeyPos: key.pos, Value: value})
	}
	return entries
}

func (t *tree) key(y *yaml.Node) (*Node, bool) {
	at := t.src.inside(Pos{y.Line, y.Column})
	switch {
	case y.Kind == yaml.ScalarNode && styleOf(y) == plain && y.Value == "<<":
		t.refuse(at, "merge keys (<<) are not allowed", "write the keys out")
		return nil, false
	case y.Kind == yaml.MappingNode, y.Kind == yaml.SequenceNode:
		t.refuse(at, "a key must be a single word or text", "")
		return nil, false
	case y.Kind == yaml.ScalarNode && y.Value == "":
		t.refuse(at, "the key is left out", "")
		return nil, false
	}
	n := t.node(y)
	return n, n.kind == Scalar
}

// style is how a scalar is written.
type style uint8

const (
	plain style = iota
	singleQuoted
	doubleQuoted
	literal
	folded
)

func styleOf(y *yaml.Node) style {
	switch {
	case y.Style&yaml.SingleQuotedStyle != 0:
		return singleQuoted
	case y.Style&yaml.DoubleQuotedStyle != 0:
		return doubleQuoted
	case y.Style&yaml.LiteralStyle != 0:
		return literal
	case y.Style&yaml.FoldedStyle != 0:
		return folded
	}
	return plain
}
