package words

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/film"
)

// format is how a locale writes.
type format struct {
	decimal, group string
	open, close    string
	// date puts a day, the name of a month and a year in order.
	date func(day int, month string, year int) string
	// january is its own word for the month. Empty: the language's.
	january string
	// customary is true where film is read in thousandths of an inch and temperature in °F.
	customary bool
}

// noBreak keeps a number and its unit on one line.
const noBreak = "\u00a0"

func dayFirst(day int, month string, year int) string {
	return fmt.Sprintf("%d %s %d", day, month, year)
}

func dayPoint(day int, month string, year int) string {
	return fmt.Sprintf("%d. %s %d", day, month, year)
}

func british() format {
	return format{decimal: ".", group: ",", open: "“", close: "”", date: dayFirst}
}

func american() format {
	f := british()
	f.customary = true
	f.date = func(day int, month string, year int) string { return fmt.Sprintf("%s %d, %d", month, day, year) }
	return f
}

func germanWriting() format {
	return format{decimal: ",", group: ".", open: "„", close: "“", date: dayPoint}
}

func austrian() format {
	f := germanWriting()
	f.january = "Jänner"
	return f
}

func swiss() format {
	return format{decimal: ".", group: "’", open: "«", close: "»", date: dayPoint}
}

// Number writes a number with so many decimals, its thousands apart from 10 000 on and a true minus sign.
func (l *Language) Number(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	text, minus := strings.CutPrefix(text, "-")
	whole, part, broken := strings.Cut(text, ".")
	if len(whole) > 4 {
		for at := len(whole) - 3; at > 0; at -= 3 {
			whole = whole[:at] + l.format.group + whole[at:]
		}
	}
	if broken {
		whole += l.format.decimal + part
	}
	if minus && strings.Trim(text, "0.") != "" {
		return "−" + whole
	}
	return whole
}

// Signed is a number with its sign, also where it rose.
func (l *Language) Signed(v float64, decimals int) string {
	text := l.Number(v, decimals)
	if strings.Trim(text, "0"+l.format.decimal) != "" && v > 0 {
		return "+" + text
	}
	return text
}

// With puts a unit after a number, on the same line.
func (l *Language) With(number, unit string) string { return number + noBreak + unit }

// FilmUnit is the unit that film is read in: "µm", or "mil" for a thousandth of an inch.
func (l *Language) FilmUnit() string {
	if l.format.customary {
		return "mil"
	}
	return "µm"
}

// InFilmUnit converts a film thickness from µm to the locale's unit; one mil is 25.4 µm exactly.
func (l *Language) InFilmUnit(um float64) float64 {
	if l.format.customary {
		return film.Microns(um).Mil()
	}
	return um
}

// FilmNumber writes a film thickness that was given in µm without its unit: to 0.1 µm, or to 0.01 mil.
func (l *Language) FilmNumber(um float64) string {
	if l.format.customary {
		return l.Number(l.InFilmUnit(um), 2)
	}
	return l.Number(um, 1)
}

// Film writes a film thickness that was given in µm, with its unit.
func (l *Language) Film(um float64) string { return l.With(l.FilmNumber(um), l.FilmUnit()) }

// FilmDecimals are those of [Language.FilmNumber].
func (l *Language) FilmDecimals() int {
	if l.format.customary {
		return 2
	}
	return 1
}

// Temperature writes a temperature that was given in °C.
func (l *Language) Temperature(c float64) string {
	if l.format.customary {
		return l.With(l.Number(c*9/5+32, 0), "°F")
	}
	return l.With(l.Number(c, 0), "°C")
}

// Percent writes a share.
func (l *Language) Percent(v float64) string { return l.With(l.Number(v, 0), "%") }

// Date writes the day of a time in the time's own zone.
func (l *Language) Date(t time.Time) string {
	month := l.Say(Key("month." + strconv.Itoa(int(t.Month()))))
	if t.Month() == time.January && l.format.january != "" {
		month = l.format.january
	}
	return l.format.date(t.Day(), month, t.Year())
}
