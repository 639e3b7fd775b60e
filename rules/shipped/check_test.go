package shipped_test

import (
	"testing"

	"github.com/glossladder/glossladder/rules/check"
)

func TestCheckFindsNothing(t *testing.T) {
	for _, finding := range check.Set(load(t), 0) {
		t.Error(finding)
	}
}

func BenchmarkCheckShipped(b *testing.B) {
	set := load(b)
	for b.Loop() {
		check.Set(set, 0)
	}
}
