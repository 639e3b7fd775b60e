package words

import (
	"fmt"
	"strings"
)

// Key names a text.
type Key string

// Arg fills a placeholder of a text. Value is a string or an int.
type Arg struct {
	Name  string
	Value any
}

// Language is one locale: texts, and how it writes numbers, dates and units. Make it with [For].
type Language struct {
	tag    string
	texts  map[Key]string
	format format
}

// LocaleError is a locale that there are no texts for.
type LocaleError struct{ Locale string }

func (e *LocaleError) Error() string {
	return fmt.Sprintf("there are no texts for locale %q; there are %s", e.Locale, strings.Join(Locales(), ", "))
}

// locale is a tag, its texts and its way of writing.
type locale struct {
	tag    string
	texts  func() map[Key]string
	format format
}

// locales are those that we can write, the plain language before its countries.
func locales() []locale {
	return []locale{
		{"en", english, british()},
		{"en-GB", english, british()},
		{"en-US", english, american()},
		{"de", german, germanWriting()},
		{"de-DE", german, germanWriting()},
		{"de-AT", german, austrian()},
		{"de-CH", german, swiss()},
	}
}

// Locales lists the tags that [For] knows.
func Locales() []string {
	var out []string
	for _, l := range locales() {
		out = append(out, l.tag)
	}
	return out
}

// For gives the language of a locale: "de-CH" or "de_ch". A country that it does not know falls back to the language; "" is
// English. The error is a [*LocaleError].
func For(tag string) (*Language, error) {
	if tag == "" {
		tag = "en"
	}
	wanted := strings.ReplaceAll(tag, "_", "-")
	plain, _, _ := strings.Cut(wanted, "-")
	for _, ask := range []string{wanted, plain} {
		for _, l := range locales() {
			if strings.EqualFold(l.tag, ask) {
				return &Language{tag: l.tag, texts: l.texts(), format: l.format}, nil
			}
		}
	}
	return nil, &LocaleError{Locale: tag}
}

// Tag is the locale as HTML names it.
func (l *Language) Tag() string { return l.tag }

// Say gives a text with its placeholders filled: "{name}" by an argument, "{n|one|other}" by the first word where the argument n
// is 1 and by the second otherwise. A text that is missing shows as its key, which no test lets pass.
func (l *Language) Say(key Key, args ...Arg) string {
	text, ok := l.texts[key]
	if !ok {
		return "[" + string(key) + "]"
	}
	var out strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		out.WriteString(before)
		if !found {
			return out.String()
		}
		inside, after, _ := strings.Cut(rest, "}")
		out.WriteString(fill(inside, args))
		text = after
	}
}

func fill(placeholder string, args []Arg) string {
	parts := strings.Split(placeholder, "|")
	for _, a := range args {
		if a.Name != parts[0] {
			continue
		}
		if len(parts) < 3 {
			return fmt.Sprint(a.Value)
		}
		if a.Value == 1 {
			return parts[1]
		}
		return parts[2]
	}
	return "{" + placeholder + "}"
}

// Word gives a word of the contract as people read it: Word("defect", "wash-marks"). A word that there is no text for, such as
// one that a shop made up, shows as it is, its hyphens as spaces.
func (l *Language) Word(group, word string) string {
	if text, ok := l.texts[Key(group+"."+word)]; ok {
		return text
	}
	return strings.ReplaceAll(word, "-", " ")
}

// Has reports whether there is a text for a word of the contract.
func (l *Language) Has(group, word string) bool {
	_, ok := l.texts[Key(group+"."+word)]
	return ok
}

// And joins words to a list: "a, b and c".
func (l *Language) And(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " " + l.Say(And) + " " + all[last]
}

// Quote puts the locale's quotation marks around words that are not ours.
func (l *Language) Quote(text string) string { return l.format.open + text + l.format.close }
