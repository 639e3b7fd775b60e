package cases

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// TableCoverage says how much of a table its passed cases speak of.
type TableCoverage struct {
	Table                              string
	Cases, Rules, Matched, Won, Missed int // passed cases, rules, and rules with such a case
	Bounds, Tested                     int // bounds that count, and those tested on both sides
	Untested                           []Bound
}

// Cover measures what the cases of a report cover, table by table in the set's order.
func Cover(set *rules.Set, report Report) []TableCoverage {
	var out []TableCoverage
	for _, t := range set.Tables() {
		c := TableCoverage{Table: t.Name()}
		var worked []*rules.Case
		for i := range report.Results {
			if r := &report.Results[i]; r.Case.Table == t.Name() && r.Passed() {
				worked = append(worked, &r.Case)
			}
		}
		c.Cases = len(worked)
		for _, r := range report.Rules {
			if r.Table != t.Name() {
				continue
			}
			c.Rules++
			c.Matched += some(r.Matched)
			c.Won += some(r.Won)
			c.Missed += some(r.Missed)
		}
		all := bounds(t, worked)
		c.Bounds = len(all)
		c.Untested = slices.DeleteFunc(all, func(b Bound) bool { return b.Tested() })
		c.Tested = c.Bounds - len(c.Untested)
		out = append(out, c)
	}
	return out
}

// Total is the sum of what tables cover.
func Total(tables []TableCoverage) TableCoverage {
	var sum TableCoverage
	for _, c := range tables {
		sum.Cases += c.Cases
		sum.Rules += c.Rules
		sum.Matched += c.Matched
		sum.Won += c.Won
		sum.Missed += c.Missed
		sum.Bounds += c.Bounds
		sum.Tested += c.Tested
	}
	return sum
}

func some(names []string) int { return min(len(names), 1) }
