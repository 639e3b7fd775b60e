package compare

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Grave says whether the region is one that somebody has to accept: the answer is
// stronger, or something that was told is told no more.
func (r *Region) Grave() bool { return r.Direction == Stronger || r.Direction == Less }

// Doubt says whether it is not decided that no answer of the table is stronger, or
// leaves out what was told.
func (t *Table) Doubt() bool {
	return t.Effect.Outcome == NotDecided &&
		(t.HitA == rules.Collect || t.HitB == rules.Collect || len(orderedFields(t.Effect.joint.tables[0].Result())) > 0)
}

// Acceptance names what has to be accepted in twelve characters: the regions that are
// [Region.Grave] with what A and B say there, and the tables that are in [Table.Doubt].
// It is empty when there is nothing to accept, stays the same as long as those regions
// do, and is another when another edit makes more of them.
func (r *Report) Acceptance() string {
	sum := sha256.New()
	any := false
	for _, t := range r.Tables {
		if t.Doubt() {
			any = true
			fmt.Fprintf(sum, "%s is not decided\n", t.Name)
		}
		var lines []string
		for i := range t.Effect.Regions {
			if g := &t.Effect.Regions[i]; g.Grave() {
				lines = append(lines, fmt.Sprintf("%s: %q without %q: %s: %s\n", t.Name, g.Words(), g.Front(), g.A, g.B))
			}
		}
		any = any || len(lines) > 0
		slices.Sort(lines) // the order is by size, which is nobody's promise
		fmt.Fprint(sum, strings.Join(lines, ""))
	}
	if !any {
		return ""
	}
	return hex.EncodeToString(sum.Sum(nil))[:12]
}
