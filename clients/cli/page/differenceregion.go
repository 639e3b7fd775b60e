package page

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules/compare"
)

// regions shows the regions of a table that go one way, the largest first.
func (d *Difference) regions(p *paper, t *compare.Table, direction compare.Direction) {
	shown, left := 0, 0
	for i := range t.Effect.Regions {
		r := &t.Effect.Regions[i]
		switch {
		case r.Direction != direction:
		case d.Most > 0 && shown == d.Most:
			left++
		default:
			shown++
			p.gap()
			d.region(p, r)
		}
	}
	if left > 0 {
		p.gap()
		p.item(2, differenceAt, in(directionRole(direction), directionWord(direction)),
			in(faint, fmt.Sprintf("in %s; --most 0 shows all", plural(left, "smaller region", "smaller regions"))))
	}
}

func (d *Difference) region(p *paper, r *compare.Region) {
	word := directionWord(r.Direction)
	if r.Collects() && len(r.A.Results) > 0 && len(r.B.Results) > 0 {
		word = "told " + r.Direction.String()
	}
	p.item(2, differenceAt, in(directionRole(r.Direction), word), in(strong, changeOf(r)))
	own, rest := r.Where()
	where := strings.Join(own, "; ")
	if where == "" {
		where = "any input"
	}
	p.item(differenceAt, differenceText, say("where"), say(where))
	p.besides(r, rest)
	example, ok := r.Example()
	if !ok {
		p.para(differenceText, in(wary, "Possibly: no input is known for which these conditions come out so together."))
		return
	}
	p.item(differenceAt, differenceText, say("such as"), say(example.Words))
	if r.Collects() {
		d.tells(p, d.A, ruleNames(example.A), len(example.A) > 0)
		d.tells(p, d.B, ruleNames(example.B), len(example.B) > 0)
		return
	}
	d.tells(p, d.A, saysBy(r, r.A, ruleNames(example.A)), true)
	d.tells(p, d.B, saysBy(r, r.B, ruleNames(example.B)), true)
}

// tells is what one of the sets says to the example.
func (d *Difference) tells(p *paper, name, text string, some bool) {
	if some {
		p.para(differenceText, say(name+":"), say(text))
	}
}

// saysBy is an answer, as far as it differs from the other one, and the rules that give it.
func saysBy(r *compare.Region, a compare.Answer, by string) string {
	if by == "" {
		return a.String()
	}
	var parts []string
	for _, f := range r.Fields() {
		value := f.Was
		if a.Results[0].Equal(r.B.Results[0]) {
			value = f.Is
		}
		parts = append(parts, valued(f, value))
	}
	if parts == nil {
		return a.String() + " by " + by
	}
	return strings.Join(parts, ", ") + " by " + by
}

// besides says that rules which come first take nothing of the region; with every bound
// and every rule where the whole is asked for.
func (p *paper) besides(r *compare.Region, rest []string) {
	front := r.Front()
	short, bounds, names := "and no rule that comes first holds", "so that nothing comes first: ", "and none of these rules comes first: "
	if r.Collects() {
		short, bounds, names = "and nothing else tells it", "so that nothing else tells it: ", "and none of these rules tells it: "
	}
	switch {
	case len(rest)+len(front) == 0:
		return
	case !p.style.Full:
		p.para(differenceText, in(faint, short))
		return
	}
	if len(rest) > 0 {
		p.para(differenceText, in(faint, bounds+strings.Join(rest, "; ")))
	}
	if len(front) > 0 {
		p.para(differenceText, in(faint, names+listed(front)))
	}
}

// changeOf is what differs: "step finish → polish", "no rule → step: cut".
func changeOf(r *compare.Region) string {
	switch {
	case r.Collects() && len(r.B.Results) == 0:
		return r.A.String()
	case r.Collects() && len(r.A.Results) == 0:
		return r.B.String()
	}
	fields := r.Fields()
	if fields == nil {
		return r.A.String() + " → " + r.B.String()
	}
	return fieldChanges(fields)
}

// fieldChanges are fields with both values: "passes 4 → 5, speed low → mid".
func fieldChanges(fields []compare.FieldChange) string {
	parts := make([]string, len(fields))
	for i, f := range fields {
		parts[i] = fieldName(f) + " " + orNothing(f.Was) + " → " + orNothing(f.Is)
		if f.Field.Unit != "" && f.Is != "" {
			parts[i] += nbsp + f.Field.Unit
		}
	}
	return strings.Join(parts, ", ")
}

// valued is a field with one of its values.
func valued(f compare.FieldChange, value string) string {
	if value != "" && f.Field.Unit != "" {
		value += nbsp + f.Field.Unit
	}
	return fieldName(f) + " " + orNothing(value)
}

// fieldName is a field's name for people: "take most" for take_most_um, since the unit stands with the value.
func fieldName(f compare.FieldChange) string {
	name := f.Field.Name
	if f.Field.Unit != "" {
		for _, ending := range []string{"_um", "_pct", "_gu", "_hu", "_cm_s", "_cm", "_c", "_min"} {
			name = strings.TrimSuffix(name, ending)
		}
	}
	return strings.ReplaceAll(name, "_", " ")
}

func orNothing(value string) string {
	if value == "" {
		return "nothing"
	}
	return value
}
