package strictyaml

// Kind says what a node is.
type Kind uint8

// The kinds of node. Refused stands where Parse has already complained about the whole value (an alias, a null, a value
// left out): a caller has nothing to add there.
const (
	Refused Kind = iota
	Map
	List
	Scalar
)

// String returns the kind in words that fit a sentence: "a map", "a list", "a single value".
func (k Kind) String() string {
	switch k {
	case Map:
		return "a map"
	case List:
		return "a list"
	case Scalar:
		return "a single value"
	}
	return "a refused value"
}

// Node is one map, list or scalar of a parsed file. Nodes do not change after Parse, so any number of goroutines may
// read them. The nil Node answers as an empty Refused one.
type Node struct {
	kind    Kind
	style   style
	pos     Pos
	text    string
	entries []Entry
	items   []*Node
	src     *source
}

// Entry is one key of a map with its value. Value is never nil.
type Entry struct {
	Key    string
	KeyPos Pos
	Value  *Node
}

// Kind says what the node is.
func (n *Node) Kind() Kind {
	if n == nil {
		return Refused
	}
	return n.kind
}

// Pos is the place of the node's first character: the opening quote of a quoted scalar, the | or > of a block scalar, the
// first key of a map, the first dash of a list, the opening bracket in the bracketed forms.
func (n *Node) Pos() Pos {
	if n == nil {
		return Pos{}
	}
	return n.pos
}

// File is the file name given to Parse.
func (n *Node) File() string {
	if n == nil {
		return ""
	}
	return n.src.file
}

// Entries are a map's keys in file order, each key once. It is nil for a list or a scalar.
func (n *Node) Entries() []Entry {
	if n == nil {
		return nil
	}
	return n.entries
}

// Items are a list's members in file order. It is nil for a map or a scalar.
func (n *Node) Items() []*Node {
	if n == nil {
		return nil
	}
	return n.items
}

// Text is a scalar's text: as written if plain, decoded if quoted or a block. It is empty for a map or a list.
func (n *Node) Text() string {
	if n == nil {
		return ""
	}
	return n.text
}

// Quoted says whether a scalar is text by its form: in quotes, or a block after | or >.
func (n *Node) Quoted() bool { return n != nil && n.kind == Scalar && n.style != plain }

// Problem returns a problem at the node's place.
func (n *Node) Problem(message, hint string) Problem {
	return Problem{File: n.File(), Pos: n.Pos(), Message: message, Hint: hint}
}
