package compare

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Words are the bounds of the region, one a string, in the order of the facts and then
// of the clauses: "softness at most soft", "usable film at least 4 µm, or not
// measured", "film.used_um < film.total_um / 3". None: the region is every input.
// What [Region.Front] holds has to be taken out.
func (r *Region) Words() []string {
	own, rest := r.Where()
	return append(own, rest...)
}

// Where is Words in two parts: bounds on what the rules that answer ask for, and bounds
// that are there only because rules that come first take what lies beyond them.
func (r *Region) Where() (own, rest []string) {
	j := r.joint
	whole := j.whole()
	for a := range r.finding.cells {
		if r.finding.cells[a] == whole[a] {
			continue
		}
		if words := j.words(a, &r.finding.cells[a]); len(r.finding.asked) == 0 || r.finding.asked[a] {
			own = append(own, words)
		} else {
			rest = append(rest, words)
		}
	}
	return own, rest
}

func (j *joint) words(axis int, c *region.Cell) string {
	if int32(axis) >= j.facts {
		return j.clauseWords(axis-int(j.facts), c)
	}
	schema := j.tables[0].Schema()
	d := space.Dim{Axis: int32(axis), Lo: c.Lo, Hi: c.Hi, Mask: c.Mask, Missing: space.Of(c.Missing)}
	return schema.Fact(rules.FactID(axis)).Label + " " + schema.Bound(d)
}

// clauseWords say how a clause comes out.
func (j *joint) clauseWords(i int, c *region.Cell) string {
	clause := j.clauses[i].from.At(j.clauses[i].at)
	const no, unknown, yes = 1 << space.False, 1 << space.Unknown, 1 << space.True
	switch c.Mask {
	case yes:
		return clause.Says(true)
	case no:
		return clause.Says(false)
	case unknown:
		return "not known whether " + clause.Says(true)
	case yes | unknown:
		return clause.Says(true) + ", or not known"
	case no | unknown:
		return clause.Says(false) + ", or not known"
	}
	return "known whether " + clause.Says(true)
}

// String is what a table says in words: "step: polish", "no rule", "a conflict", or
// several results with " and " between them.
func (a Answer) String() string {
	switch {
	case a.Outcome == rules.NoRule:
		return "no rule"
	case a.Outcome == rules.Conflict:
		return "a conflict"
	}
	parts := make([]string, len(a.Results))
	for i, r := range a.Results {
		parts[i] = r.String()
	}
	return strings.Join(parts, " and ")
}

// FieldChange is one field that the two tables give otherwise; an empty value is not given.
type FieldChange struct {
	Field   rules.Field
	Was, Is string
}

// Fields are the fields in which the answers differ. It is nil when one of the tables
// gives no answer or several.
func (r *Region) Fields() []FieldChange {
	if len(r.A.Results) != 1 || len(r.B.Results) != 1 {
		return nil
	}
	return FieldChanges(r.A.Results[0], r.B.Results[0])
}

// FieldChanges are the fields in which two results of one type differ.
func FieldChanges(was, is rules.Result) []FieldChange {
	value := func(all []rules.FieldValue, name string) string {
		for _, v := range all {
			if v.Field.Name == name {
				return v.Value
			}
		}
		return ""
	}
	before, after := was.Fields(), is.Fields()
	var out []FieldChange
	for _, f := range was.Type().Fields {
		c := FieldChange{Field: f, Was: value(before, f.Name), Is: value(after, f.Name)}
		if c.Was != c.Is {
			out = append(out, c)
		}
	}
	return out
}

// Front are the ids of the rules that take a part of the block that Words describe, so
// that it is no part of the region: rules that come first, or under collect rules that
// tell the same. In the order of the tables, each once.
func (r *Region) Front() []string {
	var out []string
	for _, b := range r.finding.except {
		side := 0
		if r.joint.seats[0][b].rank < 0 {
			side = 1
		}
		id := r.joint.tables[side].Rules()[r.joint.seats[side][b].rule].ID
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// Collects says whether the tables tell all rules that hold. A region is then about one
// result, or one and another in its place, and regions may have inputs in common.
func (r *Region) Collects() bool {
	return r.joint.hit[0] == rules.Collect && r.joint.hit[1] == rules.Collect
}
