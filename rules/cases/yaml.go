package cases

import (
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// lineWidth is where the lines of a case are broken.
const lineWidth = 116

// YAML is the case as an entry of a list of cases.
func (s Suggestion) YAML() string {
	var b strings.Builder
	fmt.Fprintf(&b, "  - name: %s\n", title(s.Name))
	b.WriteString(flow("    given: ", "{", s.facts(), "}"))
	b.WriteString(s.expect())
	if len(s.Misses) == 1 {
		fmt.Fprintf(&b, "    misses: %s\n", s.Misses[0])
	} else if len(s.Misses) > 1 {
		b.WriteString(flow("    misses: ", "[", s.Misses, "]"))
	}
	return b.String()
}

func (s Suggestion) expect() string {
	var parts []string
	switch {
	case len(s.Rules) == 0:
		return "    expect: {none: true}\n"
	case !s.Many:
		parts = append(parts, "rule: "+s.Rules[0])
	case len(strings.Join(s.Rules, ", "))+len("    expect: {rules: [], then: }")+len(s.Then) > lineWidth:
		text := "    expect:\n" + flow("      rules: ", "[", s.Rules, "]")
		if s.Then != "" {
			text += "      then: " + s.Then + "\n"
		}
		return text
	default:
		parts = append(parts, "rules: ["+strings.Join(s.Rules, ", ")+"]")
	}
	if s.Then != "" && s.Then != "{}" {
		parts = append(parts, "then: "+s.Then)
	}
	return "    expect: {" + strings.Join(parts, ", ") + "}\n"
}

// flow is a list in brackets behind a key, on lines of its own if it is long.
func flow(key, open string, items []string, closing string) string {
	whole := key + open + strings.Join(items, ", ") + closing
	if len(whole) <= lineWidth {
		return whole + "\n"
	}
	indent := key[:len(key)-len(strings.TrimLeft(key, " "))] + "  "
	text, line := strings.TrimRight(key, " ")+"\n", indent+open
	for i, item := range items {
		if i < len(items)-1 {
			item += ","
		}
		if len(line)+1+len(item) > lineWidth {
			text, line = text+strings.TrimRight(line, " ")+"\n", indent+" "
		}
		line += item + " "
	}
	return text + strings.TrimRight(line, " ") + closing + "\n"
}

func (s Suggestion) facts() []string {
	var out []string
	for _, id := range knownFacts(s.Given) {
		out = append(out, s.Given.Schema().Fact(id).Name+": "+factText(s.Given, id))
	}
	return out
}

func factText(in *rules.Input, id rules.FactID) string {
	if v, ok := in.Number(id); ok {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	if w, ok := in.Word(id); ok {
		return Scalar(w)
	}
	v, _ := in.Flag(id)
	return strconv.FormatBool(v)
}

func fieldText(r rules.Result, f rules.FieldValue) string {
	switch {
	case f.Field.List:
		var items []string
		for _, w := range r.Words(f.Field.Name) {
			items = append(items, Scalar(w))
		}
		return "[" + strings.Join(items, ", ") + "]"
	case f.Field.Kind == rules.Number || f.Field.Kind == rules.Flag:
		return f.Value
	}
	return Scalar(f.Value)
}

// plainText is what YAML reads as text without quotes, inside brackets too.
var plainText = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 µ°²%()/.+-]*$`)

// Scalar is a text as a YAML file writes it, inside brackets too: plain if it can be,
// else in double quotes.
func Scalar(text string) string {
	plain := plainText.MatchString(text) && !strings.HasSuffix(text, " ") &&
		!slices.Contains([]string{"true", "false", "null", "yes", "no", "on", "off", "y", "n"}, strings.ToLower(text))
	if plain {
		return text
	}
	var b strings.Builder
	e := json.NewEncoder(&b) // what JSON quotes YAML reads alike
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil {
		return strconv.Quote(text)
	}
	return strings.TrimSpace(b.String())
}

// title is a text behind a key on a line of its own, where commas need no quotes.
func title(text string) string {
	if plainText.MatchString(strings.ReplaceAll(text, ",", "")) {
		return text
	}
	return Scalar(text)
}

// File is a whole file of cases of one table. A name that came before gets an "again".
func File(table string, list []Suggestion) string {
	if len(list) == 0 {
		return "table: " + table + "\ncases: []\n"
	}
	seen := map[string]bool{}
	parts := make([]string, len(list))
	for i, s := range list {
		for seen[s.Name] {
			s.Name += ", again"
		}
		seen[s.Name] = true
		parts[i] = s.YAML()
	}
	return "table: " + table + "\ncases:\n" + strings.Join(parts, "\n")
}
