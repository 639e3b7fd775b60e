package vocabulary

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Reference is the vocabulary of rules as a Markdown page for whoever writes them: every fact, and what each table answers.
func Reference(schema *rules.Schema) string {
	var page strings.Builder
	page.WriteString(`# Facts and tables

What a rule may ask about, and what each table may answer. This page is written from the contract; do not edit it.
Words joined by < rise in order and may be compared: ` + "`paint.softness <= \"soft\"`" + `. A fact that nobody measured is not known, never
zero: ` + "`known(film.usable_um)`" + ` asks whether it is.

The last column says what can be done about a fact: given (the vehicle is so), measured (it can be measured again), chosen.

A shop may declare facts of its own, named shop.something, in facts.yaml beside its tables; [README.md](README.md) says how.

## Facts
`)
	group := ""
	for _, fact := range schema.Facts() {
		if name, _, _ := strings.Cut(fact.Name, "."); name != group {
			group = name
			fmt.Fprintf(&page, "\n### %s\n\n| fact | values | meaning | |\n| --- | --- | --- | --- |\n", group)
		}
		fmt.Fprintf(&page, "| `%s` | %s | %s | %s |\n", fact.Name,
			values(fact.Kind, fact.Min, fact.Max, fact.Step, fact.Unit, fact.Words, fact.Ordered), meaning(fact), classWord(fact.Class))
	}
	page.WriteString("\n## Tables, in the order in which they are asked\n")
	for _, result := range schema.Results() {
		fmt.Fprintf(&page, "\n### %s\n\n%s\n\nHit policies: %s.%s\n\n| field | values | meaning |\n| --- | --- | --- |\n",
			result.Table, result.Meaning, hitWords(result), priorityWords(result))
		for _, field := range result.Fields {
			need := ""
			if !field.Required {
				need = " May be left out."
			}
			fmt.Fprintf(&page, "| `%s` | %s | %s%s |\n", field.Name,
				values(field.Kind, field.Min, field.Max, field.Step, field.Unit, field.Words, field.Ordered), field.Meaning, need)
		}
	}
	return page.String()
}

// meaning begins with the name for people where the fact's own name does not say it.
func meaning(fact rules.Fact) string {
	if _, own, _ := strings.Cut(fact.Name, "."); strings.ReplaceAll(own, "_", " ") == fact.Label {
		return fact.Meaning
	}
	return fmt.Sprintf("*%s.* %s", fact.Label, fact.Meaning)
}

func values(kind rules.Kind, least, most, step float64, unit string, words []string, ordered bool) string {
	switch kind {
	case rules.Number:
		return strings.TrimSpace(fmt.Sprintf("%s to %s %s", plain(least), plain(most), unit)) + ", steps of " + plain(step)
	case rules.Word:
		join := ", "
		if ordered {
			join = " < "
		}
		return strings.Join(words, join)
	case rules.Flag:
		return "true, false"
	}
	return "text"
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func classWord(class rules.Class) string {
	return map[rules.Class]string{rules.Given: "given", rules.Measurable: "measured", rules.Choosable: "chosen"}[class]
}

func hitWords(result rules.ResultType) string {
	if len(result.Hits) == 0 {
		return "any of them"
	}
	words := make([]string, len(result.Hits))
	for i, hit := range result.Hits {
		words[i] = string(hit)
	}
	return strings.Join(words, ", ")
}

func priorityWords(result rules.ResultType) string {
	if result.Priority == "" {
		return ""
	}
	end := "lowest"
	if result.HighestWins {
		end = "highest"
	}
	return " Under priority the " + end + " `" + result.Priority + "` wins."
}
