package jsonschema

import "github.com/glossladder/glossladder/rules"

// ownShape is the pattern of the names in a group that a folder declares itself.
func ownShape(s *rules.Schema) string { return `^` + s.OwnGroup() + `\.[a-z][a-z0-9_]*$` }

// factFile is the file in which a folder declares facts of its own.
func factFile(s *rules.Schema) object {
	fact := closed([]string{"name", "meaning", "kind"}, object{
		"name":    object{"type": "string", "pattern": ownShape(s), "description": "As rules write it: " + s.OwnGroup() + ".fleet."},
		"label":   text("Short name for people. Left out: the name with spaces."),
		"meaning": text("What it says, in a sentence."),
		"kind":    told(words([]string{"number", "word", "flag"}), "What its values are. A flag is true or false."),
		"unit":    text("Unit of a number, as people write it."),
		"min":     told(object{"type": "number"}, "Least value of a number."),
		"max":     told(object{"type": "number"}, "Greatest value of a number: a whole number of steps above the least."),
		"step":    told(object{"type": "number", "exclusiveMinimum": 0}, "Smallest difference of a number. Values are rounded to it."),
		"words":   told(object{"type": "array", "items": id("One word."), "minItems": 1, "maxItems": 62, "uniqueItems": true}, "What a word may be, the least first where they rise."),
		"ordered": told(object{"type": "boolean"}, "The words rise in order, so that rules may compare them with < and >."),
		"class":   told(words([]string{"given", "measured", "chosen"}), "What can be done about it. Left out: given."),
		"learn":   text("What to do to learn it, without a full stop. Left out: nobody is asked for it."),
	})
	fact["allOf"] = []any{
		kindHas("number", []string{"min", "max", "step"}, "words", "ordered"),
		kindHas("word", []string{"words"}, "unit", "min", "max", "step"),
		kindHas("flag", nil, "unit", "min", "max", "step", "words", "ordered"),
	}
	return root("Facts of the shop's own", []string{"facts"}, object{"facts": object{"type": "array", "items": fact, "maxItems": 64}})
}

// kindHas says which keys a fact of a kind needs and which it must not have.
func kindHas(kind string, needs []string, not ...string) object {
	without := object{}
	for _, key := range not {
		without[key] = false
	}
	then := object{"properties": without}
	if needs != nil {
		then["required"] = needs
	}
	return object{"if": object{"properties": object{"kind": object{"const": kind}}}, "then": then}
}
