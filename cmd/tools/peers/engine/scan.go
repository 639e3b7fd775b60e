package engine

import "github.com/glossladder/glossladder/cmd/tools/peers/table"

// plainScan is the oracle as an engine: what a scan costs when the rules cost nothing to interpret.
func plainScan() Maker {
	return Maker{
		Name: "a plain scan in Go", Reference: true,
		How: "no engine: the loop over the rules in memory that judges all answers, as a mark to measure by. It is left out of the best",
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			ask := func(i int) (int, error) { return table.Decide(rs, at[i]), nil }
			return Engine{Ready: ask, Fresh: ask}, nil
		},
	}
}
