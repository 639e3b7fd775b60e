package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/service/report/words"
)

// The ways of writing are those of the Unicode CLDR (cldr.unicode.org) for each locale, except that a space stands before the per cent
// sign everywhere, as ISO 80000-1 has it. The Swiss group sign is the typographic apostrophe, as in CLDR.
func TestNumbersDatesAndUnitsByLocale(t *testing.T) {
	day := time.Date(2026, time.January, 4, 23, 30, 0, 0, time.UTC)
	for _, row := range []struct{ tag, number, minus, film, warm, date, quote, share string }{
		{"en-GB", "12,345.6", "−3.1", "2.5 µm", "21 °C", "4 January 2026", "“x”", "95 %"},
		{"en-US", "12,345.6", "−3.1", "0.10 mil", "70 °F", "January 4, 2026", "“x”", "95 %"},
		{"de-DE", "12.345,6", "−3,1", "2,5 µm", "21 °C", "4. Januar 2026", "„x“", "95 %"},
		{"de-AT", "12.345,6", "−3,1", "2,5 µm", "21 °C", "4. Jänner 2026", "„x“", "95 %"},
		{"de-CH", "12’345.6", "−3.1", "2.5 µm", "21 °C", "4. Januar 2026", "«x»", "95 %"},
	} {
		l := language(t, row.tag)
		plain := func(text string) string { return string([]rune(text)) }
		assert.Equal(t, row.number, l.Number(12345.6, 1), row.tag)
		assert.Equal(t, row.minus, l.Number(-3.1, 1), row.tag)
		assert.Equal(t, withSpace(row.film), plain(l.Film(2.54)), row.tag)
		assert.Equal(t, withSpace(row.warm), l.Temperature(21), row.tag)
		assert.Equal(t, row.date, l.Date(day), row.tag)
		assert.Equal(t, row.quote, l.Quote("x"), row.tag)
		assert.Equal(t, withSpace(row.share), l.Percent(95), row.tag)
	}
}

// withSpace puts the no-break space where the table has a plain one.
func withSpace(text string) string {
	out := []rune(text)
	for i, r := range out {
		if r == ' ' {
			out[i] = '\u00a0'
		}
	}
	return string(out)
}

func TestNoMinusStandsBeforeZero(t *testing.T) {
	l := language(t, "en")
	assert.Equal(t, "0.0", l.Number(-0.04, 1))
	assert.Equal(t, "0.0", l.Signed(0.04, 1))
	assert.Equal(t, "+0.1", l.Signed(0.06, 1))
	assert.Equal(t, "−0.1", l.Signed(-0.06, 1))
	assert.Equal(t, "1234", l.Number(1234, 0), "four digits stand together")
}

func TestPluralsAndPlaceholders(t *testing.T) {
	l := language(t, "en")
	assert.Contains(t, l.Say(words.ShortPanels, words.Arg{Name: "n", Value: 1}, words.Arg{Name: "worked", Value: 0}), "1 panel was inspected")
	assert.Contains(t, l.Say(words.ShortPanels, words.Arg{Name: "n", Value: 2}, words.Arg{Name: "worked", Value: 1}), "2 panels were inspected")
	assert.Equal(t, "{x} and {y}", l.And([]string{"{x}", "{y}"}), "what fills a text is not read as one")
	assert.Equal(t, "a, b and c", l.And([]string{"a", "b", "c"}))
	assert.Equal(t, "front splitter", l.Word("part", "front-splitter"), "a word of the shop's own")
}
