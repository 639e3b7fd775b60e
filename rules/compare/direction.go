package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// Direction says whether an answer is more or less than the one before. The zero value is Different.
type Direction uint8

// The directions.
const (
	Different Direction = iota // there is no order, or the order does not tell
	Milder                     // an ordered word of the result is lower, and none is higher
	Stronger                   // an ordered word of the result is higher, and none is lower
	More                       // under collect: something more is told, and nothing left out
	Less                       // under collect: something that was told is told no more
)

// String names the direction in one word.
func (d Direction) String() string {
	return [...]string{"different", "milder", "stronger", "more", "less"}[min(d, 4)]
}

// direction goes by the order that the result type declares: the field that decides
// under priority, and where none does all fields of one ordered word. An answer that
// is not the lowest word is stronger than no answer.
func (j *joint) direction(r *Region) Direction {
	if j.hit[0] == rules.Collect && j.hit[1] == rules.Collect {
		return collected(r.A.Results, r.B.Results)
	}
	fields := orderedFields(j.tables[0].Result())
	switch {
	case len(r.A.Results) == 0 && len(r.B.Results) == 1:
		if slices.ContainsFunc(fields, func(f rules.Field) bool { return level(f, r.B.Results[0]) > 0 }) {
			return Stronger
		}
		return Different
	case len(r.A.Results) != 1 || len(r.B.Results) != 1:
		return Different
	}
	up, down := steps(fields, r.A.Results[0], r.B.Results[0])
	switch {
	case up && !down:
		return Stronger
	case down && !up:
		return Milder
	}
	return Different
}

// steps says whether some field rises from a to b, and whether some falls.
func steps(fields []rules.Field, a, b rules.Result) (up, down bool) {
	for _, f := range fields {
		was, is := level(f, a), level(f, b)
		if was < 0 || is < 0 {
			continue
		}
		up, down = up || is > was, down || is < was
	}
	return up, down
}

// orderedFields are those whose word says how strong a result is.
func orderedFields(t rules.ResultType) []rules.Field {
	if f, ok := t.Field(t.Priority); ok {
		return []rules.Field{f}
	}
	return slices.DeleteFunc(slices.Clone(t.Fields), func(f rules.Field) bool {
		return f.Kind != rules.Word || !f.Ordered || f.List
	})
}

// level is the place of a result's word, -1 when the field is not given.
func level(f rules.Field, r rules.Result) int {
	word, ok := r.Word(f.Name)
	if !ok {
		return -1
	}
	return slices.Index(f.Words, word)
}

// collected says whether something that was told is neither told any more nor told
// with more weight.
func collected(lost, gained []rules.Result) Direction {
	for _, was := range lost {
		if !slices.ContainsFunc(gained, func(is rules.Result) bool { return raised(was, is) }) {
			return Less
		}
	}
	return More
}

// raised says whether b is a with a higher word and all else the same.
func raised(a, b rules.Result) bool {
	fields := orderedFields(*a.Type())
	if up, down := steps(fields, a, b); !up || down {
		return false
	}
	rest := func(r rules.Result) []rules.FieldValue {
		return slices.DeleteFunc(r.Fields(), func(v rules.FieldValue) bool {
			return slices.ContainsFunc(fields, func(f rules.Field) bool { return f.Name == v.Field.Name })
		})
	}
	return slices.EqualFunc(rest(a), rest(b), func(x, y rules.FieldValue) bool {
		return x.Field.Name == y.Field.Name && x.Value == y.Value
	})
}
