package strictyaml

// PosOf is the place in the file of the k-th rune (from 0) of a scalar's text. It follows escapes, folded lines and block
// scalars, so the place is exact; where the text cannot be followed it is the scalar's own place. A rune that a line end
// became stands where that line ends. A k beyond the text gives the place behind it, a negative k the first. For a map or
// a list it is Pos.
func (n *Node) PosOf(runeOffset int) Pos {
	if n.Kind() != Scalar {
		return n.Pos()
	}
	read, ok := n.respell()
	if !ok {
		return n.pos
	}
	if k := max(runeOffset, 0); k < len(read.at) {
		return n.src.inside(read.at[k])
	}
	return n.src.inside(read.end)
}

// respelled is a scalar read once more from the file, each rune of its text with its place.
type respelled struct {
	text []rune
	at   []Pos
	end  Pos
}

func (r *respelled) add(c rune, at Pos) {
	r.text = append(r.text, c)
	r.at = append(r.at, at)
}

// respell reads the scalar again. It reports false if the result is not the text the parser found: then its places would
// be guesses.
func (n *Node) respell() (respelled, bool) {
	c := &cursor{lines: n.src.lines}
	c.moveTo(n.pos)
	var read respelled
	switch n.style {
	case literal, folded:
		return n.respellBlock(c)
	case singleQuoted:
		c.next()
		read = readFlow(c, '\'', -1)
	case doubleQuoted:
		c.next()
		read = readFlow(c, '"', -1)
	default:
		read = readFlow(c, 0, len([]rune(n.text)))
	}
	return read, string(read.text) == n.text
}

// cursor walks over the runes of a file. A line end reads as '\n'.
type cursor struct {
	lines []string
	line  int    // index into lines
	rest  []rune // what is left of the line
	col   int    // runes of the line already read
}

func (c *cursor) moveTo(p Pos) {
	c.line = p.Line - 1
	c.rest = []rune(c.lines[c.line])
	c.col = min(p.Col-1, len(c.rest))
	c.rest = c.rest[c.col:]
}

func (c *cursor) pos() Pos { return Pos{c.line + 1, c.col + 1} }

// peek returns the next rune, or false at the end of the file.
func (c *cursor) peek() (rune, bool) {
	if len(c.rest) > 0 {
		return c.rest[0], true
	}
	return '\n', c.line+1 < len(c.lines)
}

func (c *cursor) next() {
	if len(c.rest) > 0 {
		c.rest = c.rest[1:]
		c.col++
	} else if c.line+1 < len(c.lines) {
		c.moveTo(Pos{c.line + 2, 1})
	}
}

func blank(r rune) bool { return r == ' ' || r == '\t' }

// skipBlanks passes over spaces and tabs, and over line ends too; it returns the number of line ends.
func (c *cursor) skipBlanks() (lineEnds int) {
	for r, ok := c.peek(); ok && (blank(r) || r == '\n'); r, ok = c.peek() {
		if r == '\n' {
			lineEnds++
		}
		c.next()
	}
	return lineEnds
}
