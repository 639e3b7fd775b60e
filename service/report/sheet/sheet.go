package sheet

import "github.com/glossladder/glossladder/service/report/chart"

// Paper is the size of a page.
type Paper string

// The sizes.
const (
	A4     Paper = "A4"
	Letter Paper = "letter"
)

// Sheet is what is printed.
type Sheet struct {
	// Lang is the language of its own texts, as HTML writes it: "de-CH".
	Lang  string
	Paper Paper
	// Over stands above the title, such as the shop's name. Empty: nothing does.
	Over, Title, Under string
	// Notice is what a reader must know before all else. Empty: nothing.
	Notice   string
	Facts    []Fact
	Sections []Section
	// Foot closes the sheet.
	Foot []string
}

// Fact is a name and what it is.
type Fact struct{ Name, Value string }

// Section is a heading and what stands under it. A section without blocks is not printed.
type Section struct {
	Heading string
	Blocks  []Block
}

// Block is one of [Paragraph], [Subheading], [List], [Table] and [Figure].
type Block interface{ block() }

// Paragraph is running text.
type Paragraph struct {
	Text Text
	// Small is for explanations that not everybody reads.
	Small bool
}

// Subheading stands over what follows it in the same section.
type Subheading string

// List is points, each a text.
type List []Text

// Table is rows under column heads. The first cell of a row names it.
type Table struct {
	Columns []Column
	Rows    [][]Text
	// Note explains the table.
	Note string
}

// Column is the head of a column.
type Column struct {
	Head string
	// Number sets it to the right.
	Number bool
}

// Figure is a chart with a caption above and a note below.
type Figure struct {
	Caption, Note string
	Chart         chart.Chart
}

func (Paragraph) block()  {}
func (Subheading) block() {}
func (List) block()       {}
func (Table) block()      {}
func (Figure) block()     {}

// Text is pieces of running text.
type Text []Piece

// Piece is text of one kind.
type Piece struct {
	Text string
	Kind Kind
}

// Kind says what a piece of text is.
type Kind uint8

// The kinds.
const (
	Plain Kind = iota
	// Strong stands out.
	Strong
	// Quoted is somebody's own words, maybe in another language than the sheet's. Its marks are part of the text.
	Quoted
)

// Say is a text of one plain piece.
func Say(text string) Text { return Text{{Text: text}} }

// String is the text without its kinds.
func (t Text) String() string {
	var out string
	for _, p := range t {
		out += p.Text
	}
	return out
}
