package jsonschema

import "github.com/glossladder/glossladder/rules"

// tableFile is a file with one table; what a rule may answer hangs on its name.
func tableFile(s *rules.Schema) object {
	top := root("A table of rules", []string{"table", "hit", "rules"}, object{
		"table": told(words(tables(s)), "The decision that this file answers."),
		"hit":   told(object{"type": "string"}, "Which of the rules that hold gives the answer: first in the file, the strongest answer (priority), all (collect), the only one (unique), or any of those that agree."),
		"let":   lets(),
		"rules": object{"type": "array", "minItems": 1, "items": object{"$ref": "#/$defs/rule"}, "description": "The rules, in order."},
	})
	defs := object{"rule": rule()}
	var branches []object
	for _, typ := range s.Results() {
		defs[typ.Table] = result(&typ, true)
		branches = append(branches, forTable(typ.Table, object{
			"hit":   object{"enum": policies(&typ)},
			"rules": object{"items": object{"properties": object{"then": object{"$ref": "#/$defs/" + typ.Table}}}},
		}))
	}
	top["$defs"], top["allOf"] = defs, branches
	return top
}

func tables(s *rules.Schema) []string {
	var out []string
	for _, typ := range s.Results() {
		out = append(out, typ.Table)
	}
	return out
}

// forTable is what holds of a file that says it is about a table.
func forTable(table string, properties object) object {
	return object{
		"if":   object{"required": []string{"table"}, "properties": object{"table": object{"const": table}}},
		"then": object{"properties": properties},
	}
}

func lets() object {
	return object{
		"type": "object", "propertyNames": object{"pattern": letShape},
		"additionalProperties": object{"type": []string{"string", "number", "boolean"}},
		"description":          "Names for conditions or sums that several rules share; a rule writes let.name.",
	}
}

func rule() object {
	return closed([]string{"id", "when", "then", "because"}, object{
		"id":      id("Small letters, digits and hyphens, unique in its table. Never give an old id to a new rule."),
		"when":    condition("The condition. true always holds."),
		"then":    object{"type": "object", "description": "The answer, in the fields of the table."},
		"because": text("What people read: the reason, as a sentence."),
	})
}

// condition is the text of a condition, or plain true or false.
func condition(description string) object {
	return object{"type": []string{"string", "boolean"}, "pattern": textShape, "description": description}
}

// result is what a rule of a table answers; a case needs to give only part of it.
func result(typ *rules.ResultType, whole bool) object {
	properties := object{}
	var required []string
	for i := range typ.Fields {
		f := &typ.Fields[i]
		properties[f.Name] = fieldValue(f)
		if f.Required && whole {
			required = append(required, f.Name)
		}
	}
	return told(closed(required, properties), typ.Meaning)
}
