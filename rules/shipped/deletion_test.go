package shipped_test

import (
	"regexp"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/promise"
)

// without is a table's file with one rule cut out of it, up to the next rule or heading.
func without(t *testing.T, src, id string) string {
	t.Helper()
	from := strings.Index(src, "  - id: "+id+"\n")
	require.GreaterOrEqual(t, from, 0, id)
	end := regexp.MustCompile(`\n  (- id: |# )`).FindStringIndex(src[from:])
	if end == nil {
		return src[:from]
	}
	return src[:from] + src[from+end[0]+1:]
}

// noticed are the examples with which check, promises and cases show that a rule is missing.
func noticed(t *testing.T, set *rules.Set, table string, list []promise.Promise) []string {
	t.Helper()
	var out []string
	changed, ok := set.Table(table)
	require.True(t, ok)
	for _, f := range check.Table(changed, 0) {
		if f.Level == check.Error && f.Example != "" {
			out = append(out, f.String())
		}
	}
	verdicts, err := promise.Verify(set, list, 0)
	require.NoError(t, err)
	for _, v := range verdicts {
		if v.Outcome == promise.Broken {
			out = append(out, v.Problem().Error())
		}
	}
	var d rules.Decision
	for i := range set.Cases() {
		worked := &set.Cases()[i]
		if worked.Table != table {
			continue
		}
		if answer, _ := cases.Passes(changed, worked, &d); !answer {
			out = append(out, worked.Name)
		}
	}
	return out
}

// Every rule matters: without it check, a promise or a case names the hole with an example. There is no rule whose deletion
// would go unnoticed, nor one that changes no answer.
func TestDeletingAnyRuleIsNoticed(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long; that sets are shared safely is tested where they are")
	}
	set := load(t)
	list := promises(t, set)
	var holes, broken atomic.Int32
	t.Run("tables", func(t *testing.T) {
		for _, table := range set.Tables() {
			t.Run(table.Name(), func(t *testing.T) {
				t.Parallel()
				src, ok := set.Source(table.File())
				require.True(t, ok)
				require.Empty(t, noticed(t, set, table.Name(), list), "with every rule there")
				for _, rule := range table.Rules() {
					changed, err := set.WithTable(table.Name(), []byte(without(t, string(src), rule.ID)))
					require.NoError(t, err, rule.ID)
					now, _ := changed.Table(table.Name())
					require.Len(t, now.Rules(), len(table.Rules())-1, rule.ID)
					found := strings.Join(noticed(t, changed, table.Name(), list), "\n")
					assert.NotEmpty(t, found, "nothing notices that %s is missing from %s", rule.ID, table.File())
					if strings.Contains(found, "["+string(check.Gap)+"]") {
						holes.Add(1)
					}
					if strings.Contains(found, "promise ") {
						broken.Add(1)
					}
				}
			})
		}
	})
	assert.GreaterOrEqual(t, int(holes.Load()), 5, "gaps that check names")
	assert.GreaterOrEqual(t, int(broken.Load()), 10, "promises that a missing rule breaks")
}
