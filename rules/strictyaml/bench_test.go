package strictyaml_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// The cost of a file must grow with its size only, however it is laid out: one long line must read at the rate of a short
// one.
func BenchmarkParse(b *testing.B) {
	for _, row := range []struct{ name, src string }{
		{"a table of 2,000 rules", table(2_000)},
		{"a map of 2,000 keys on one line", line(2_000)},
		{"a map of 20,000 keys on one line", line(20_000)},
	} {
		b.Run(row.name, func(b *testing.B) {
			src := []byte(row.src)
			b.SetBytes(int64(len(src)))
			for b.Loop() {
				if _, problems := strictyaml.Parse("f.yaml", src); len(problems) > 0 {
					b.Fatal(problems)
				}
			}
		})
	}
}

func table(rules int) string {
	var b strings.Builder
	for i := range rules {
		fmt.Fprintf(&b, "- id: rule-%d\n  when: paint.softness <= \"soft\" && defect.severity <= %d\n  then: {step: finish}\n", i, i%5)
	}
	return b.String()
}

func line(keys int) string {
	var b strings.Builder
	b.WriteByte('{')
	for i := range keys {
		fmt.Fprintf(&b, "k%d: v, ", i)
	}
	return b.String() + "}"
}
