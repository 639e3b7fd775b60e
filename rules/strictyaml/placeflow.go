package strictyaml

import "strconv"

// readFlow reads a plain or quoted scalar from its first character on. A quoted one ends at its quote; a plain one, quote
// 0, has no mark at its end and is read for the given number of runes (YAML 1.2.2, 7.3).
func readFlow(c *cursor, quote rune, runes int) (read respelled) {
	for runes < 0 || len(read.text) < runes {
		r, ok := c.peek()
		if !ok {
			break
		}
		at := c.pos()
		switch {
		case blank(r) || r == '\n':
			readGap(c, &read)
			continue
		case quote == '"' && r == '\\':
			readEscape(c, &read)
			continue
		case quote == '\'' && r == quote:
			c.next()
			if again, ok := c.peek(); !ok || again != quote {
				read.end = at
				return read
			}
		case quote != 0 && r == quote:
			read.end = at
			return read
		}
		read.add(r, at)
		c.next()
	}
	read.end = c.pos()
	return read
}

// readGap reads the blanks between two words. Inside a line they are text. Around line ends they go, and the line ends fold
// (YAML 1.2.2, 6.5): one becomes a space, n become n-1 line feeds.
func readGap(c *cursor, read *respelled) {
	inLine := *c
	for len(inLine.rest) > 0 && blank(inLine.rest[0]) {
		inLine.next()
	}
	if len(inLine.rest) > 0 {
		for c.col < inLine.col {
			read.add(c.rest[0], c.pos())
			c.next()
		}
		return
	}
	at := c.pos()
	lineEnds := c.skipBlanks()
	if lineEnds == 1 {
		read.add(' ', at)
	}
	for range lineEnds - 1 {
		read.add('\n', at)
	}
}

// escapes are the single-letter escapes of double quotes (YAML 1.2.2, 5.7).
const (
	escapeLetters = "0abt\tnvfre \"/\\N_LP"
	escapeValues  = "\x00\a\b\t\t\n\v\f\r\x1b \"/\\\u0085\u00a0\u2028\u2029"
)

// readEscape reads one escape of a double-quoted scalar. What it does not know it leaves out, and the comparison with the
// parser's text fails.
func readEscape(c *cursor, read *respelled) {
	at := c.pos()
	c.next()
	letter, ok := c.peek()
	if !ok {
		return
	}
	if letter == '\n' { // the line goes on without a space; further line ends stand for themselves
		c.next()
		for range c.skipBlanks() {
			read.add('\n', at)
		}
		return
	}
	c.next()
	if n := map[rune]int{'x': 2, 'u': 4, 'U': 8}[letter]; n > 0 {
		if len(c.rest) >= n {
			if v, err := strconv.ParseUint(string(c.rest[:n]), 16, 32); err == nil {
				read.add(rune(v), at)
			}
		}
		for range n {
			c.next()
		}
		return
	}
	values := []rune(escapeValues)
	for i, l := range []rune(escapeLetters) {
		if l == letter {
			read.add(values[i], at)
			return
		}
	}
}
