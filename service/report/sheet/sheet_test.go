package sheet_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/report/chart"
	"github.com/glossladder/glossladder/service/report/sheet"
)

const evil = "<script>alert('x')</script> \"quoted\" & \x1b[31mred\u202e"

// everywhere is a sheet with the same text in every place.
func everywhere(text string) *sheet.Sheet {
	said := sheet.Text{{Text: text}, {Text: text, Kind: sheet.Strong}, {Text: text, Kind: sheet.Quoted}}
	return &sheet.Sheet{
		Lang: "en", Over: text, Title: text, Under: text, Notice: text, Facts: []sheet.Fact{{Name: text, Value: text}}, Foot: []string{text},
		Sections: []sheet.Section{{Heading: text, Blocks: []sheet.Block{
			sheet.Paragraph{Text: said},
			sheet.Subheading(text),
			sheet.List{said},
			sheet.Table{Columns: []sheet.Column{{Head: text}, {Head: text, Number: true}}, Rows: [][]sheet.Text{{said, said}}, Note: text},
			sheet.Figure{Caption: text, Note: text, Chart: chart.Chart{
				Title: text, Axis: text, Rows: []chart.Row{{Label: text, Dots: []chart.Dot{{Value: 1, Low: 1, High: 2, Text: text}}}},
			}},
		}}},
	}
}

func html(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, s.HTML(&out))
	return out.String()
}

func plain(t *testing.T, s *sheet.Sheet) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, s.Plain(&out))
	return out.String()
}

func TestTextFromOutsideCannotBecomeMarkup(t *testing.T) {
	page := html(t, everywhere(evil))
	assert.NotContains(t, page, "<script")
	assert.NotContains(t, page, "alert('x')")
	assert.GreaterOrEqual(t, strings.Count(page, "&lt;script&gt;"), 20, "every place shows the text as it is")
}

func TestPlainTextCannotMoveTheCursor(t *testing.T) {
	text := plain(t, everywhere(evil))
	for _, r := range text {
		assert.False(t, r < ' ' && r != '\n' || r == 0x7f || r == 0x202e, "%U got through", r)
	}
	assert.Contains(t, text, "<script>", "plain text has nothing to escape")
}

func TestTheHTMLStandsAlone(t *testing.T) {
	page := html(t, everywhere("text"))
	for _, outside := range []string{"http://", "https://", "src=", "<link", "@import", "url("} {
		assert.NotContains(t, strings.ReplaceAll(page, `xmlns="http://www.w3.org/2000/svg"`, ""), outside)
	}
}

func TestPaperIsSaidInTheStyle(t *testing.T) {
	s := everywhere("text")
	assert.Contains(t, html(t, s), "size: A4 portrait")
	s.Paper = sheet.Letter
	assert.Contains(t, html(t, s), "size: letter portrait")
}

func TestWordsOfOthersAreInNoKnownLanguage(t *testing.T) {
	assert.Contains(t, html(t, everywhere("text")), `<span class="quoted" lang="">text</span>`)
}

func TestLinesOfPlainTextFitATerminal(t *testing.T) {
	long := strings.Repeat("several words in a row ", 20)
	said := sheet.Say(long)
	s := &sheet.Sheet{
		Title: "t", Under: long, Notice: long, Foot: []string{long}, Facts: []sheet.Fact{{Name: "short", Value: long}, {Name: long, Value: long}},
		Sections: []sheet.Section{{Heading: "h", Blocks: []sheet.Block{
			sheet.Paragraph{Text: said},
			sheet.List{said},
			sheet.Table{Columns: []sheet.Column{{Head: "a"}, {Head: "b"}}, Rows: [][]sheet.Text{{said, said}}, Note: long},
		}}},
	}
	for line := range strings.Lines(plain(t, s)) {
		assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 86, line)
	}
}

func TestASectionWithoutBlocksIsNotPrinted(t *testing.T) {
	s := &sheet.Sheet{Lang: "en", Title: "t", Sections: []sheet.Section{{Heading: "empty"}}}
	assert.NotContains(t, html(t, s), "empty")
	assert.NotContains(t, plain(t, s), "empty")
}

func TestATallChartIsCutBetweenRows(t *testing.T) {
	var c chart.Chart
	for range 30 {
		c.Rows = append(c.Rows, chart.Row{Dots: []chart.Dot{{Value: 1, Low: 1, High: 2}}})
	}
	page := html(t, &sheet.Sheet{Lang: "en", Title: "t", Sections: []sheet.Section{{Heading: "h", Blocks: []sheet.Block{sheet.Figure{Caption: "caption", Note: "note", Chart: c}}}}})
	assert.Equal(t, 3, strings.Count(page, "<svg"), "twelve rows a page")
	assert.Equal(t, 1, strings.Count(page, "caption</figcaption>"))
	assert.Equal(t, 1, strings.Count(page, ">note<"))
}
