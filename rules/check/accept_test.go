package check_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/check"
)

// What the file accepts is not told, and stays in the report with its reason.
func TestFileAcceptsAFinding(t *testing.T) {
	file := text("first", row{"box.fragile", "low"}, row{"true", "top"})
	require.Equal(t, map[check.Code]int{check.UnusedWord: 1}, codes(check.Set(loaded(t, file), 0)))
	file = "# accept unused-word height mid: nobody can reach the shelf in the middle\n" + file
	set := loaded(t, file)
	assert.Empty(t, check.Set(set, 0))
	report := check.Run(set, 0)
	require.Len(t, report.Findings, 1)
	assert.Equal(t, "nobody can reach the shelf in the middle", report.Findings[0].Accepted)
	assert.Equal(t, 1, report.Tables[0].Accepted)
}

func TestAcceptanceIsHeldToWhatItNames(t *testing.T) {
	gap := text("first", row{"box.fragile", "low"}, row{"box.fragile == false && box.kg > 3", "top"}, row{"not known(box.fragile)", "mid"})
	for _, c := range []struct {
		name, line string
		want       map[check.Code]int
	}{
		{"an error is mended, not accepted", "# accept gap shelf: never happens", map[check.Code]int{check.Gap: 1, check.UnusedAccept: 1}},
		{"what is not there", "# accept never-wins r-9: moved here later", map[check.Code]int{check.Gap: 1, check.UnusedAccept: 1}},
		{"a comment that only begins so", "# accept what comes: we do", map[check.Code]int{check.Gap: 1}},
		{"no reason, no acceptance", "# accept gap shelf:", map[check.Code]int{check.Gap: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := check.Set(loaded(t, c.line+"\n"+gap), 0)
			assert.Equal(t, c.want, codes(found), "%v", found)
			for _, f := range found {
				if f.Code == check.UnusedAccept {
					assert.Equal(t, 1, f.Places[0].Line)
				}
			}
		})
	}
}

// With the file at hand a number is told where it stands, in a let too.
func TestNumbersAreToldWhereTheyStand(t *testing.T) {
	set := loaded(t, `table: shelf
hit: first
let:
  heavy: >-
    box.fragile ||
    box.kg > 3.5
rules:
  - id: a
    when: "let.heavy && box.cm in 1..9"
    then: {height: low}
    because: invented
  - {id: b, when: "box.cm > (box.fragile ? 0.5 : 1)", then: {height: mid}, because: invented}
  - {id: c, when: "true", then: {height: top}, because: invented}
`)
	var lines []string
	for _, f := range check.Set(set, 0) {
		lines = append(lines, f.String())
	}
	assert.Equal(t, []string{
		"shelf.yaml:6:14: box.kg > 3.5: it is read in steps of 1 kg; write box.kg >= 4 [finer-than-step]",
		"shelf.yaml:9:38: box.cm <= 9: height goes from 0 to 3 cm; take a number within these bounds, or known(box.cm) if that is meant [out-of-bounds]",
		"shelf.yaml:12:44: box.cm > 0.5: it is read in steps of 1 cm; write box.cm >= 1 [finer-than-step]",
	}, lines)
}

// Every code has a name of its own and a row in the guide for rule authors.
func TestGuideTellsEveryCode(t *testing.T) {
	guide, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	seen := map[check.Code]bool{}
	for _, c := range check.Codes() {
		assert.Regexp(t, "^[a-z]+(-[a-z]+)*$", string(c))
		assert.False(t, seen[c], c)
		seen[c] = true
		assert.Contains(t, string(guide), "\n| `"+string(c)+"` | ")
	}
}
