package check_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
)

// A mend is tried: what it says is done to the table, and the finding must be gone.

var addClause = regexp.MustCompile(`^add && (.*?) to (r-\d+)(, or give both the same answer)?$`)

// answers are what a table that gives one answer says to every input, in their order.
func answers(t *rules.Table) []string {
	var out []string
	var d rules.Decision
	all(t.Schema(), func(in *rules.Input) {
		t.Decide(in, &d)
		said := d.Outcome.String()
		if len(d.Winners) > 0 { // under any, several say the same
			said += "; " + t.Rules()[d.Winners[0]].Result.String()
		}
		out = append(out, said)
	})
	return out
}

func index(t *testing.T, tab *rules.Table, id string) int {
	t.Helper()
	r, ok := tab.Rule(id)
	require.True(t, ok, id)
	return r.Index
}

// The rule that is offered for a gap, put at the end of the file, answers its inputs
// and changes no other answer.
func TestStubClosesItsGap(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	closed := 0
	for n := range 300 {
		hit := []string{"first", "priority", "unique", "any"}[n%4]
		file := text(hit, randomRows(r)...)
		tab := loaded(t, file).Tables()[0]
		before := answers(tab)
		for _, f := range check.Table(tab, 0) {
			if f.Code != check.Gap || f.More > 0 {
				continue
			}
			mended := loaded(t, file+"  "+strings.ReplaceAll(strings.TrimSpace(f.Stub), "\n", "\n  ")+"\n").Tables()[0]
			after, i, inside := answers(mended), 0, holds(t, f.Input.When)
			all(tab.Schema(), func(in *rules.Input) {
				if inside(in) {
					require.True(t, strings.HasPrefix(after[i], "answered"), "%s after %s: %s", f, f.Stub, after[i])
				} else {
					require.Equal(t, before[i], after[i], "%s after %s", f, f.Stub)
				}
				i++
			})
			closed++
		}
	}
	assert.Greater(t, closed, 300)
}

// The clause that is offered for two rules that hold together parts these two.
func TestClausePartsTwoRules(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	parted := 0
	for n := range 400 {
		hit := []string{"unique", "any"}[n%2]
		rows := randomRows(r)
		for _, f := range check.Table(table(t, hit, rows...), 0) {
			m := addClause.FindStringSubmatch(f.Mend)
			if f.Code != check.Conflict || m == nil {
				continue
			}
			mended := slices.Clone(rows)
			k := index(t, table(t, hit, rows...), m[2])
			mended[k].when = "(" + mended[k].when + ") && " + m[1]
			for _, g := range check.Table(table(t, hit, mended...), 0) {
				require.False(t, g.Code == check.Conflict && g.Subject == f.Subject, "%s\n%v\nstill %s", f, rows, g)
				require.False(t, g.Code == check.NeverTrue && g.Subject == m[2], "%s\n%v\nnow %s", f, rows, g)
			}
			parted++
		}
	}
	assert.Greater(t, parted, 200)
}

// The bound that is offered for a gap closes it, when the rule says it so.
func TestMovedBoundClosesItsGap(t *testing.T) {
	bound := regexp.MustCompile(`^let (r-\d+) \(.*\) reach there with (.*?)(?: in place of (.*?))?, or add`)
	clauses := []string{"box.kg <= 2", "box.kg >= 5", "box.kg in 2..4", "box.size <= \"middling\"", "box.size == \"large\"", "box.fragile", "not box.fragile", "box.cm <= 1"}
	r := rand.New(rand.NewPCG(6, 3))
	closed := 0
	for n := range 800 {
		hit := []string{"first", "priority", "unique", "any"}[n%4]
		var rows []row
		for range 2 + r.IntN(4) {
			rows = append(rows, row{clauses[r.IntN(len(clauses))], []string{"low", "mid", "top"}[r.IntN(3)]})
			if k := len(rows) - 1; r.IntN(2) == 0 {
				rows[k].when += " && " + clauses[r.IntN(len(clauses))]
			}
		}
		tab := table(t, hit, rows...)
		before := answers(tab)
		for _, f := range check.Table(tab, 0) {
			m := bound.FindStringSubmatch(f.Mend)
			if f.Code != check.Gap || m == nil {
				continue
			}
			k := index(t, tab, m[1])
			if strings.Count(rows[k].when, m[3]) != 1 || strings.Count(rows[k].when, strings.Fields(m[3])[0]) != 1 {
				continue // the rule says its bound in two parts
			}
			mended := slices.Clone(rows)
			with := m[2]
			if strings.HasPrefix(with, "no bound") {
				with = "true"
			}
			mended[k].when = strings.Replace(mended[k].when, m[3], with, 1)
			after, i, inside := answers(table(t, hit, mended...)), 0, holds(t, f.Input.When)
			all(tab.Schema(), func(in *rules.Input) {
				if before[i] != after[i] || inside(in) {
					require.Equal(t, "no rule", before[i], "%s\n%v", f, rows)
					require.True(t, !inside(in) || strings.HasPrefix(after[i], "answered"), "%s\n%v", f, rows)
				}
				i++
			})
			closed++
		}
	}
	assert.Greater(t, closed, 300)
}

// A rule that can never win can go, and those that are named hide it alone.
func TestRuleThatNeverWinsCanGo(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 4))
	gone, together := 0, 0
	for n := range 400 {
		hit := []string{"first", "priority"}[n%2]
		rows := randomRows(r)
		tab := table(t, hit, rows...)
		for _, f := range check.Table(tab, 0) {
			if f.Code != check.NeverWins {
				continue
			}
			k := index(t, tab, f.Subject)
			if rest := slices.Delete(slices.Clone(rows), k, k+1); len(rest) > 0 {
				require.Equal(t, answers(tab), answers(table(t, hit, rest...)), "%s\n%v", f, rows)
			}
			var few []row
			for i := range rows {
				if slices.ContainsFunc(f.Places, func(p check.Place) bool { return p.Rule == tab.Rules()[i].ID }) {
					few = append(few, rows[i])
				}
			}
			require.Len(t, few, len(f.Places))
			require.Equal(t, 1, codes(check.Table(table(t, hit, few...), 0))[check.NeverWins], "%s\n%v", f, rows)
			gone++
			if len(few) > 2 {
				together++
			}
		}
	}
	assert.Greater(t, gone, 100)
	assert.Greater(t, together, 10)
}

// Rules that could be one rule can be, in the place of the first of them or of the
// last, and every answer stays.
func TestMergedRulesAnswerTheSame(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 5))
	merged := 0
	for n := range 800 {
		hit := []string{"first", "priority", "unique", "any"}[n%4]
		rows := randomRows(r)
		tab := table(t, hit, rows...)
		before := answers(tab)
		for _, f := range check.Table(tab, 0) {
			if f.Code != check.Mergeable {
				continue
			}
			same := false
			for _, keep := range []int{0, len(f.Places) - 1} {
				var one []row
				var parts []string
				for _, p := range f.Places {
					parts = append(parts, "("+rows[index(t, tab, p.Rule)].when+")")
				}
				for i := range rows {
					switch at := slices.IndexFunc(f.Places, func(p check.Place) bool { return p.Rule == tab.Rules()[i].ID }); at {
					case -1:
						one = append(one, rows[i])
					case keep:
						one = append(one, row{strings.Join(parts, " || "), rows[i].then})
					}
				}
				same = same || slices.Equal(before, settled(hit, before, answers(table(t, hit, one...))))
			}
			require.True(t, same, "%s\n%v", f, rows)
			merged++
		}
	}
	assert.Greater(t, merged, 50)
}

// settled leaves out of what changed that two rules which overlapped are one now.
func settled(hit string, before, after []string) []string {
	out := slices.Clone(after)
	for i := range out {
		if hit == "unique" && before[i] == "conflict" {
			out[i] = before[i]
		}
	}
	return out
}
