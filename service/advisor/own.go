package advisor

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Own is values of facts that the shop declares itself, by their names within its group: "fleet" for shop.fleet. A value is a
// float64 in the fact's unit, a string or a bool; any other is refused with the rest of what is wrong.
type Own map[string]any

// CheckOwn refuses an inspection with facts of the shop's own that the rule set does not declare, or with values that they cannot
// have. The error is an [*InputError] with every one.
func (a *Advisor) CheckOwn(in Inspection) error { return a.ownTroubles(&in).asError() }

// Fitting are those values that the rule set declares.
func (a *Advisor) Fitting(own Own) Own {
	out := Own{}
	schema := a.set.Schema()
	for name, value := range own {
		if id, ok := schema.FactID(schema.OwnGroup() + "." + name); ok {
			if fact := schema.Fact(id); fits(&fact, value) == "" {
				out[name] = value
			}
		}
	}
	return out
}

// ownTroubles are what is wrong with the shop's own facts of an inspection, by field.
func (a *Advisor) ownTroubles(in *Inspection) troubles {
	var wrong troubles
	a.checkOwn("shop", in.Own, &wrong)
	for i := range in.Panels {
		a.checkOwn(fmt.Sprintf("panels[%d].shop", i), in.Panels[i].Own, &wrong)
	}
	return wrong
}

// setOwn sets the shop's own facts: what the panel says goes before what holds for the whole vehicle. What cannot be is left out;
// [Advisor.ownTroubles] complains about it.
func (c *panelCase) setOwn() {
	schema := c.a.set.Schema()
	for _, fact := range schema.Own() {
		value, given := c.own(fact.Name)
		if !given || fits(&fact, value) != "" {
			continue
		}
		switch value := value.(type) {
		case float64:
			c.sheet.number(fact.Name, &value, nearest)
		case string:
			c.sheet.word(fact.Name, value)
		case bool:
			c.sheet.flag(fact.Name, &value)
		}
	}
}

// own is what is given for a fact, by its whole name.
func (c *panelCase) own(fact string) (value any, given bool) {
	_, name, _ := strings.Cut(fact, ".")
	if value, given = c.panel.Own[name]; !given {
		value, given = c.in.Own[name]
	}
	return value, given
}

func (a *Advisor) checkOwn(where string, own Own, wrong *troubles) {
	schema := a.set.Schema()
	for _, name := range slices.Sorted(maps.Keys(own)) {
		field := where + "[" + name + "]"
		id, ok := schema.FactID(schema.OwnGroup() + "." + name)
		if !ok {
			*wrong = append(*wrong, Trouble{Field: field, Says: unknownOwn(schema, name)})
			continue
		}
		fact := schema.Fact(id)
		if says := fits(&fact, own[name]); says != "" {
			*wrong = append(*wrong, Trouble{Field: field, Says: says})
		}
	}
}

// unknownOwn says that the rules declare no such fact, and which they do.
func unknownOwn(schema *rules.Schema, name string) string {
	says := fmt.Sprintf("%s.%s is not a fact of the rules in force", schema.OwnGroup(), name)
	var names []string
	for _, fact := range schema.Own() {
		names = append(names, strings.TrimPrefix(fact.Name, schema.OwnGroup()+"."))
	}
	if len(names) == 0 {
		return says + "; they declare none of the shop's own, which " + rules.FactsFile + " in the rule folder would do"
	}
	return says + "; " + rules.Meant(name, names, "they declare ")
}

// fits says why a value cannot be the fact's, and what can; "" when it can.
func fits(fact *rules.Fact, value any) string {
	switch value := value.(type) {
	case float64:
		if fact.Kind == rules.Number && value >= fact.Min && value <= fact.Max {
			return ""
		}
	case string:
		if fact.Kind == rules.Word && slices.Contains(fact.Words, value) {
			return ""
		}
	case bool:
		if fact.Kind == rules.Flag {
			return ""
		}
	}
	return fmt.Sprintf("%s is not allowed: %s", shown(value), allowed(fact))
}

func shown(value any) string {
	switch value := value.(type) {
	case float64:
		return strconv.FormatFloat(value, 'f', -1, 64)
	case string:
		return strconv.Quote(value)
	case bool:
		return strconv.FormatBool(value)
	}
	return "a list or a map"
}

// allowed is what a fact may be: "from 0 to 365 days", `one of "new" < "regular"`, "true or false".
func allowed(fact *rules.Fact) string {
	switch fact.Kind {
	case rules.Number:
		return strings.TrimSpace(fmt.Sprintf("from %s to %s %s", shown(fact.Min), shown(fact.Max), fact.Unit))
	case rules.Word:
		return "one of " + strings.Join(fact.Words, ", ")
	}
	return "true or false"
}

// ownLevers move the shop's own facts.
func (e *enquiry) ownLevers() []lever {
	var out []lever
	for _, fact := range e.a.set.Schema().Own() {
		_, name, _ := strings.Cut(fact.Name, ".")
		now, given := e.now.panel.Own[name]
		if !given {
			now = e.in.Own[name]
		}
		set := func(s *situation, value any) { s.panel.Own = s.panel.Own.with(name, value) }
		switch fact.Kind {
		case rules.Number:
			out = append(out, e.numberLever(fact.Name, valueIn[float64](now), func(s *situation, v *float64) { set(s, whatever(v)) }))
		case rules.Word:
			word, _ := now.(string)
			out = append(out, e.wordLever(fact.Name, word, func(s *situation, w string) {
				if w == "" {
					set(s, nil)
					return
				}
				set(s, w)
			}))
		case rules.Flag:
			out = append(out, e.flagLever(fact.Name, valueIn[bool](now), func(s *situation, v *bool) { set(s, whatever(v)) }))
		}
	}
	return out
}

// with is the values with one otherwise; nil says that it is not known, whatever holds for the whole vehicle.
func (o Own) with(name string, value any) Own {
	out := maps.Clone(o)
	if out == nil {
		out = Own{}
	}
	out[name] = value
	return out
}

func valueIn[T any](value any) *T {
	if v, ok := value.(T); ok {
		return &v
	}
	return nil
}

func whatever[T any](v *T) any {
	if v == nil {
		return nil
	}
	return *v
}
