package jsonschema

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules"
)

// The shapes of names in rule files.
const (
	idShape   = `^[a-z0-9]+(-[a-z0-9]+)*$`
	letShape  = `^[a-z][a-z0-9_]*$`
	textShape = `\S` // a text says something
)

func text(description string) object {
	return object{"type": "string", "pattern": textShape, "description": description}
}

func id(description string) object {
	return object{"type": "string", "pattern": idShape, "description": description}
}

func words(list []string) object {
	return object{"type": "string", "enum": list}
}

// factValue is a value that a case gives a fact.
func factValue(f *rules.Fact) object {
	var out object
	switch f.Kind {
	case rules.Number:
		out = number(f.Min, f.Max, f.Step)
	case rules.Word:
		out = words(f.Words)
	default:
		out = object{"type": "boolean"}
	}
	about := f.Label
	if f.Kind == rules.Number {
		about += measure(f.Unit, f.Step)
	}
	if f.Ordered {
		about += ", rising: " + strings.Join(f.Words, " < ")
	}
	return told(out, strings.TrimSpace(sentence(about)+" "+f.Meaning))
}

// fieldValue is a value that a rule gives a field of its table's result.
func fieldValue(f *rules.Field) object {
	var out object
	switch f.Kind {
	case rules.Number:
		out = number(f.Min, f.Max, f.Step)
	case rules.Word:
		out = words(f.Words)
	case rules.Text:
		out = object{"type": "string", "pattern": textShape}
	default:
		out = object{"type": "boolean"}
	}
	if f.List {
		out = listOf(out)
		out["uniqueItems"] = true
	}
	about := f.Meaning
	switch {
	case f.Kind == rules.Number:
		about += sentence(measure(f.Unit, f.Step))
	case f.Ordered:
		about += " Rising: " + strings.Join(f.Words, " < ") + "."
	}
	return told(out, strings.TrimSpace(about))
}

func number(least, most, step float64) object {
	out := object{"type": "number", "minimum": least, "maximum": most}
	if step > 0 && exact(step) && math.Mod(least, step) == 0 {
		out["multipleOf"] = step
	}
	return out
}

// exact says whether the multiples of a step are the same in binary and in decimal.
// Editors divide in binary: a multipleOf of 0.1 would mark good numbers as wrong.
func exact(step float64) bool { return step*1024 == math.Trunc(step*1024) }

// measure is ", in µm, steps of 0.1".
func measure(unit string, step float64) string {
	out := ""
	if unit != "" {
		out += ", in " + unit
	}
	if step > 0 {
		out += ", steps of " + strconv.FormatFloat(step, 'f', -1, 64)
	}
	return out
}

// sentence begins with a capital and ends with a full stop. What measure says alone
// begins with a comma, which goes.
func sentence(s string) string {
	alone := strings.HasPrefix(s, ", ")
	s = strings.TrimPrefix(s, ", ")
	if s == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(first)) + s[size:] + "."
	if alone {
		return " " + s
	}
	return s
}

// policies are the hit policies that a file may choose for a table.
func policies(typ *rules.ResultType) []rules.Hit {
	all := []rules.Hit{rules.Unique, rules.Any, rules.Priority, rules.First, rules.Collect}
	return slices.DeleteFunc(all, func(h rules.Hit) bool {
		return len(typ.Hits) > 0 && !slices.Contains(typ.Hits, h) || h == rules.Priority && typ.Priority == ""
	})
}

// collects says whether a table may collect, and whether it can do nothing else.
func collects(typ *rules.ResultType) (may, must bool) {
	hits := policies(typ)
	may = slices.Contains(hits, rules.Collect)
	return may, may && len(hits) == 1
}
