package cli

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// wantedCases are the cases that one rule is to have.
type wantedCases struct {
	table        *rules.Table
	rule         int
	wins, misses bool
}

// suggestions writes cases as a file of cases, one for each table.
func (t *caseTest) suggestions(set *rules.Set) error {
	wanted, err := t.wanted(set)
	if err != nil {
		return err
	}
	byTable := map[string][]cases.Suggestion{}
	var without []string
	for _, w := range wanted {
		wins, misses := cases.Suggest(w.table, w.rule)
		for _, s := range []struct {
			asked bool
			one   *cases.Suggestion
			how   string
		}{{w.wins, wins, "lets rule %s win"}, {w.misses, misses, "just misses rule %s"}} {
			switch {
			case s.asked && s.one != nil:
				byTable[w.table.Name()] = append(byTable[w.table.Name()], *s.one)
			case s.asked:
				without = append(without, fmt.Sprintf("no input was found that "+s.how, w.table.Rules()[w.rule].ID))
			}
		}
	}
	if t.asJSON() {
		return t.suggestionsJSON(set, byTable, without)
	}
	for _, line := range without {
		fmt.Fprintf(t.out, "# %s\n", line)
	}
	if len(wanted) == 0 {
		fmt.Fprintln(t.out, "# every rule has a case that it wins and one that just misses it")
	}
	count := 0
	for _, table := range set.Tables() {
		list := byTable[table.Name()]
		if len(list) == 0 {
			continue
		}
		if count++; count > 1 {
			fmt.Fprintln(t.out)
		}
		fmt.Fprintf(t.out, "# to put into a file of %s\n%s", t.path("cases"), cases.File(table.Name(), list))
	}
	return nil
}

// wanted are the rules that were asked for, or those that lack a case.
func (t *caseTest) wanted(set *rules.Set) ([]wantedCases, error) {
	if t.suggest == missing {
		return lacking(set), nil
	}
	name, id, ok := strings.Cut(t.suggest, "/")
	if !ok {
		name, id = "", t.suggest
	}
	var out []wantedCases
	var known []string
	for _, table := range set.Tables() {
		for i, r := range table.Rules() {
			known = append(known, r.ID)
			if r.ID == id && (name == "" || name == table.Name()) {
				out = append(out, wantedCases{table: table, rule: i, wins: true, misses: true})
			}
		}
	}
	switch {
	case len(out) == 1:
		return out, nil
	case len(out) > 1:
		return nil, fmt.Errorf("tables %s and %s both have a rule %s; write %s/%s", out[0].table.Name(), out[1].table.Name(), id, out[0].table.Name(), id)
	}
	if near := strictyaml.Nearest(id, known); near != "" {
		return nil, fmt.Errorf("there is no rule %s; did you mean %s?", t.suggest, near)
	}
	return nil, fmt.Errorf("there is no rule %s", t.suggest)
}

// lacking are the rules that no case wins or that none just misses.
func lacking(set *rules.Set) []wantedCases {
	report := cases.Run(set)
	var out []wantedCases
	at := 0
	for _, table := range set.Tables() {
		for i := range table.Rules() {
			c := report.Rules[at]
			at++
			if len(c.Won) == 0 || len(c.Missed) == 0 {
				out = append(out, wantedCases{table: table, rule: i, wins: len(c.Won) == 0, misses: len(c.Missed) == 0})
			}
		}
	}
	return out
}
