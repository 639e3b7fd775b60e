package strictyaml

import "strings"

// blockHeader is the line of a | or >: what becomes of the line ends after the text, and whether the indentation is given.
type blockHeader struct {
	folded, strip, keep, indented bool
}

// respellBlock reads a block scalar whose | or > is at c.
func (n *Node) respellBlock(c *cursor) (respelled, bool) {
	h := blockHeader{folded: n.style == folded}
	for _, r := range c.rest[min(1, len(c.rest)):] {
		if r == '-' {
			h.strip = true
		} else if r == '+' {
			h.keep = true
		} else if '1' <= r && r <= '9' {
			h.indented = true
		} else {
			break
		}
	}
	first := c.line + 1
	seen := contentIndent(c.lines[min(first, len(c.lines)):])
	lowest := seen
	if h.indented { // the digit counts from the enclosing map or list, which is not known here: the text itself tells
		lowest = max(0, seen-64)
	}
	// One more than seen: the block is empty, and what was seen is already the text behind it.
	for indent := seen + 1; indent >= lowest; indent-- {
		if read := h.read(c.lines, first, indent); string(read.text) == n.text {
			return read, true
		}
	}
	return respelled{}, false
}

// contentIndent is the deepest indentation down to the first line that has text.
func contentIndent(lines []string) (spaces int) {
	for _, line := range lines {
		n := leadingSpaces(line)
		spaces = max(spaces, n)
		if n < len(line) {
			break
		}
	}
	return spaces
}

func leadingSpaces(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// read reads the lines of a block scalar with the indentation of its text (YAML 1.2.2, 8.1).
func (h blockHeader) read(lines []string, first, indent int) (read respelled) {
	var (
		lineEnd  *Pos  // the end of the last line of text, not yet written
		empty    []Pos // the ends of the empty lines after it, not yet written
		wasBlank bool  // that last line began with a blank: such lines are not folded
	)
	read.end = Pos{first + 1, indent + 1}
	for i := first; i < len(lines); i++ {
		line := []rune(lines[i])
		spaces := leadingSpaces(lines[i])
		last := i == len(lines)-1
		if len(line) <= indent && spaces == len(line) {
			if !last || len(line) > 0 {
				empty = append(empty, Pos{i + 1, len(line) + 1})
			}
			continue
		}
		if spaces < indent {
			break
		}
		isBlank := blank(line[indent])
		switch {
		case lineEnd == nil:
		case h.folded && !wasBlank && !isBlank:
			if len(empty) == 0 {
				read.add(' ', *lineEnd)
			}
		default:
			read.add('\n', *lineEnd)
		}
		for _, at := range empty {
			read.add('\n', at)
		}
		for col := indent; col < len(line); col++ {
			read.add(line[col], Pos{i + 1, col + 1})
		}
		read.end = Pos{i + 1, len(line) + 1}
		lineEnd, empty, wasBlank = nil, nil, isBlank
		if !last || strings.Trim(lines[i], " \t") == "" { // the parser gives a last line of mere blanks a line end
			lineEnd = &Pos{i + 1, len(line) + 1}
		}
	}
	if lineEnd != nil && !h.strip {
		read.add('\n', *lineEnd)
	}
	if h.keep {
		for _, at := range empty {
			read.add('\n', at)
			read.end = at
		}
	}
	return read
}
