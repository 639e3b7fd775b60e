package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// classes numbers the results of both tables together: side -> rule -> class. Equal
// results share one, and so do those of one rule that differ in texts for people alone.
func (j *joint) classes(geometry *[2]rules.Geometry) [2][]int32 {
	var own [2][]int32 // the table's class -> class
	byText := map[string][]int32{}
	for side := range own {
		for r, c := range geometry[side].Class {
			if int(c) < len(own[side]) {
				continue // classes are numbered in the order of the rules
			}
			own[side] = append(own[side], j.class(j.tables[side].Rules()[r].Result, byText))
		}
	}
	same := make([]int32, len(j.results)) // class -> one that it is taken for
	for c := range same {
		same[c] = int32(c)
	}
	for r, s := range pairs(j.tables[0].Rules(), j.tables[1].Rules()) {
		if s < 0 {
			continue
		}
		a, b := same[own[0][geometry[0].Class[r]]], same[own[1][geometry[1].Class[s]]]
		if a == b || !alikeButTexts(j.results[a], j.results[b]) {
			continue
		}
		for c := range same {
			if same[c] == b {
				same[c] = a
			}
		}
	}
	var out [2][]int32
	for side := range out {
		out[side] = make([]int32, len(geometry[side].Class))
		for r, c := range geometry[side].Class {
			out[side][r] = same[own[side][c]]
		}
	}
	return out
}

// class is the number of a result.
func (j *joint) class(result rules.Result, byText map[string][]int32) int32 {
	text := result.String()
	for _, c := range byText[text] {
		if j.results[c].Equal(result) {
			return c
		}
	}
	c := int32(len(j.results))
	byText[text] = append(byText[text], c)
	j.results = append(j.results, result)
	return c
}

// alikeButTexts says whether two results give the same, texts for people left out.
func alikeButTexts(a, b rules.Result) bool {
	said := func(r rules.Result) []rules.FieldValue {
		return slices.DeleteFunc(r.Fields(), func(f rules.FieldValue) bool { return f.Field.Kind == rules.Text })
	}
	return slices.EqualFunc(said(a), said(b), func(x, y rules.FieldValue) bool {
		return x.Field.Name == y.Field.Name && x.Value == y.Value
	})
}
