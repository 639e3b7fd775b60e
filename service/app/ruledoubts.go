package app

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/promise"
)

// brokenPromise is the code of a promise of the set's own, not about safety, that is not kept.
const brokenPromise check.Code = "promise"

// doubtsOf is what is doubtful in a set that loads: what the checks find, and promises of its own that it does not keep.
// Those about safety were settled when it was loaded.
func doubtsOf(set *rules.Set) []check.Finding {
	found := check.Set(set, 0)
	src, ok := set.Source(promise.File)
	if !ok {
		return found
	}
	own, err := promise.Parse(promise.File, src)
	if err != nil { // a set whose promises cannot be read does not load
		return found
	}
	own = slices.DeleteFunc(own, func(p promise.Promise) bool { return p.Safety })
	verdicts, err := promise.Verify(set, own, 0)
	if err != nil {
		return found
	}
	for _, v := range verdicts {
		if v.Outcome != promise.Kept {
			p := v.Problem()
			found = append(found, check.Finding{
				Code: brokenPromise, Level: check.Warning, Message: p.Message, Mend: p.Hint,
				Places: []check.Place{{Rule: p.Rule, File: p.File, Line: p.Line, Col: p.Col}},
			})
		}
	}
	return found
}

func errorsIn(found []check.Finding) []check.Finding {
	return slices.DeleteFunc(slices.Clone(found), func(f check.Finding) bool { return f.Level != check.Error })
}

// alike says whether two findings are the same trouble: their places may have moved, and their examples may differ.
func alike(a, b check.Finding) bool {
	return a.Code == b.Code && a.Table == b.Table &&
		slices.EqualFunc(a.Places, b.Places, func(p, q check.Place) bool { return p.Rule == q.Rule && p.File == q.File })
}

// problemOf is a finding that an edit may not add.
func problemOf(f check.Finding) rules.Problem {
	at := f.Places[0]
	problem := rules.Problem{File: at.File, Line: at.Line, Col: at.Col, Rule: at.Rule, Message: f.Message, Hint: f.Mend}
	if f.Example != "" {
		problem.Message += ": " + f.Example
	}
	problem.Message += " [" + string(f.Code) + "]"
	return problem
}
