package jsonschema

import "github.com/glossladder/glossladder/rules"

// caseFile is a file of worked cases of one table.
func caseFile(s *rules.Schema) object {
	top := root("Worked cases of a table", []string{"table", "cases"}, object{
		"table": told(words(tables(s)), "The table that the cases are about."),
		"cases": told(listOf(object{"$ref": "#/$defs/case"}), "The cases; their names differ."),
	})
	defs := object{"case": oneCase(), "given": given(s)}
	var branches []object
	for _, typ := range s.Results() {
		defs[typ.Table] = result(&typ, false)
		branches = append(branches, forTable(typ.Table, object{
			"cases": object{"items": object{"properties": object{"expect": object{"properties": expected(&typ)}}}},
		}))
	}
	top["$defs"], top["allOf"] = defs, branches
	return top
}

func oneCase() object {
	return closed([]string{"name", "given", "expect"}, object{
		"name":   text("What the case shows, in words."),
		"given":  object{"$ref": "#/$defs/given"},
		"expect": expect(),
		"misses": told(oneOrMore(), "Rules that this case only just misses: they fail on one thing, or another rule goes first."),
	})
}

func oneOrMore() object {
	one := object{"type": "string", "pattern": idShape}
	return object{"if": object{"type": "array"}, "then": listOf(one), "else": one}
}

func expect() object {
	out := closed(nil, object{
		"rule":  id("The rule that answers."),
		"rules": told(listOf(object{"type": "string", "pattern": idShape}), "Where a table collects: all rules that hold, in file order."),
		"none":  told(object{"const": true}, "No rule holds."),
		"then":  object{"description": "The answer, as far as it matters."},
	})
	out["minProperties"] = 1
	out["dependentSchemas"] = object{"none": object{"maxProperties": 1}}
	return told(out, "What has to come out.")
}

// expected is what may be expected of one table: of one that collects all rules and
// several answers, of another the one.
func expected(typ *rules.ResultType) object {
	answer := object{"$ref": "#/$defs/" + typ.Table}
	may, must := collects(typ)
	out := object{"then": answer}
	if may {
		out["then"] = object{"if": object{"type": "array"}, "then": listOf(answer), "else": answer}
	} else {
		out["rules"] = false
	}
	if must {
		out["rule"] = false
	}
	return out
}

// given is the facts of a case. What is left out is not known.
func given(s *rules.Schema) object {
	properties := object{}
	for _, f := range s.Facts() {
		properties[f.Name] = factValue(&f)
	}
	out := closed(nil, properties)
	if s.OwnGroup() != "" {
		out["patternProperties"] = object{ownShape(s): object{"type": []string{"number", "string", "boolean"}, "description": "A fact that " + rules.FactsFile + " declares."}}
	}
	return told(out, "The facts. What is left out is not known.")
}
