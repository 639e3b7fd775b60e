package shipped_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/rules/check"
)

// What the check has to say is accepted in the files, and what it asks is proved.
func TestCheckFindsNothing(t *testing.T) {
	report := check.Run(load(t), 0)
	for _, finding := range report.Open() {
		t.Error(finding)
	}
	for _, table := range report.Tables {
		for _, outcome := range []check.Outcome{table.Answers, table.Agrees, table.Wins} {
			assert.Contains(t, []check.Outcome{check.Proved, check.NotAsked}, outcome, table.Table)
		}
	}
}

func BenchmarkCheckShipped(b *testing.B) {
	set := load(b)
	for b.Loop() {
		check.Set(set, 0)
	}
}
