package jsonschema

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
)

// promiseFile is the file of promises.
func promiseFile(s *rules.Schema) object {
	kinds := promiseKinds(s)
	properties := object{
		"id":      text("Its name, unique in the file."),
		"because": text("What people read when the promise is broken."),
		"safety":  told(object{"type": "boolean"}, "A set that breaks the promise does not load."),
	}
	var one []object
	for _, kind := range []promise.Kind{promise.Never, promise.Always, promise.Reachable, promise.Total, promise.Monotone, promise.Step, promise.Blind} {
		properties[string(kind)] = kinds[kind]
		one = append(one, object{"required": []promise.Kind{kind}})
	}
	item := closed([]string{"id", "because"}, properties)
	item["oneOf"] = one
	return root("Promises of a rule folder", []string{"promises"}, object{
		"promises": told(listOf(item), "What must be so for every possible input. A condition may name facts, and results as table.field."),
	})
}

func promiseKinds(s *rules.Schema) map[promise.Kind]object {
	rises := told(risingFact(s), "The fact that rises while all else stays.")
	results := words(risingResults(s))
	monotone := closed([]string{"rises"}, object{
		"rises":       rises,
		"never-falls": results,
		"never-rises": results,
		"keeps":       condition("A condition on the results of one table that some rule goes on meeting."),
	})
	monotone["minProperties"], monotone["maxProperties"] = 2, 2
	return map[promise.Kind]object{
		promise.Never:     condition("No input makes it true."),
		promise.Always:    condition("Every input makes it true."),
		promise.Reachable: condition("Some input makes it true."),
		promise.Total:     told(words(tables(s)), "The table answers every input."),
		promise.Monotone:  told(monotone, "As a fact rises, a result never falls, never rises, or is kept."),
		promise.Step: told(closed([]string{"rises", "moves", "at-most"}, object{
			"rises": rises, "moves": results,
			"at-most": told(object{"type": "integer", "minimum": 0}, "How many places of its order the result may move, up or down."),
		}), "One notch of a fact moves a result so many places at most."),
		promise.Blind: told(closed([]string{"tables", "to"}, object{
			"tables": listOf(words(tables(s))),
			"to":     told(words(groups(s)), "What stands before the dot in the names of facts."),
		}), "No rule of these tables names a fact of a group."),
	}
}

// groups are what stands before the dot in the names of facts.
func groups(s *rules.Schema) []string {
	var out []string
	for _, f := range s.Facts() {
		if group, _, _ := strings.Cut(f.Name, "."); !slices.Contains(out, group) {
			out = append(out, group)
		}
	}
	if own := s.OwnGroup(); own != "" && !slices.Contains(out, own) {
		out = append(out, own)
	}
	return out
}

// risingFact is the name of a fact whose values have an order; of a fact that a folder declares the order is not known here.
func risingFact(s *rules.Schema) object {
	if s.OwnGroup() == "" {
		return words(risingFacts(s))
	}
	return object{"anyOf": []any{words(risingFacts(s)), object{"type": "string", "pattern": ownShape(s)}}}
}

// risingFacts are the facts whose values have an order.
func risingFacts(s *rules.Schema) []string {
	var out []string
	for _, f := range s.Facts() {
		if f.Kind != rules.Word || f.Ordered {
			out = append(out, f.Name)
		}
	}
	return out
}

// risingResults are the fields of one value with an order, in tables that give one answer.
func risingResults(s *rules.Schema) []string {
	var out []string
	for _, typ := range s.Results() {
		if _, must := collects(&typ); must {
			continue
		}
		for _, f := range typ.Fields {
			ordered := f.Kind == rules.Flag || f.Kind == rules.Word && f.Ordered || f.Kind == rules.Number && f.Step > 0
			if ordered && !f.List {
				out = append(out, typ.Table+"."+f.Name)
			}
		}
	}
	return out
}
