package advisor_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

// Where the panel stands, the map holds its own answer; the engine compares every field with running it.
func TestMapHoldsTheAdvisersAnswerWhereThePanelStands(t *testing.T) {
	a := shop(t)
	m, err := a.Map(inspection(), advisor.MapQuestion{X: "softness", Y: "defect.severity"})
	require.NoError(t, err)
	require.True(t, m.Exact)
	assert.Equal(t, recommend(t, a, inspection()).Start, m.Answers[m.AtY][m.AtX])
	assert.Equal(t, "not known", m.Xs[len(m.Xs)-1])
	different := map[string]bool{}
	for _, row := range m.Answers {
		for _, answer := range row {
			different[answer] = true
		}
	}
	assert.Greater(t, len(different), 2)
}

// A map moves what an inspection states, and all that follows from it: the ladder over softness and severity.
func TestMapAgreesWithTheRecommendationInEveryField(t *testing.T) {
	a := shop(t)
	soft := []string{"very-soft", "soft", "medium", "hard", "very-hard", ""}
	for _, table := range []string{"start", "limit", "ladder", "readiness"} {
		m, err := a.Map(inspection(), advisor.MapQuestion{Table: table, X: "softness", Y: "film"})
		require.NoError(t, err)
		require.True(t, m.Exact)
		assert.Contains(t, m.Xs[len(m.Xs)-1], "not known")
		for _, softness := range soft {
			x := columnOf(t, m.Xs, softness, soft)
			for um := 60.0; um <= 240; um += 1.3 {
				p := recommend(t, a, inspection(panel(func(p *advisor.Panel) { p.Paint.Softness, p.Film = softness, filmAt(p.Film, um) })))
				want := map[string]string{"start": p.Start, "limit": p.Limit, "ladder": p.Ladder}[table]
				if table == "readiness" && len(p.Readiness) > 0 {
					want = p.Readiness[0].Effect
				}
				assert.Equal(t, want, fieldOf(t, &m, x, um), "%s on %s paint with %v µm", table, softness, um)
			}
		}
	}
}

// columnOf is the column of a map that a word lies in.
func columnOf(t *testing.T, names []string, word string, order []string) int {
	t.Helper()
	for x, name := range names {
		switch from, softer := strings.CutSuffix(name, " or softer"); {
		case word == "":
			return len(names) - 1
		case name == "anything at all":
			return x
		case softer && slices.Index(order, word) <= slices.Index(order, written(from)):
			return x
		}
		if from, harder := strings.CutSuffix(name, " or harder"); harder && slices.Index(order, word) >= slices.Index(order, written(from)) {
			return x
		}
		for _, each := range strings.Split(strings.ReplaceAll(name, " or ", ", "), ", ") {
			if written(each) == word {
				return x
			}
		}
	}
	require.Fail(t, "no column", "%s in %v", word, names)
	return 0
}

// written is a softness as rules write it.
func written(said string) string {
	return strings.ReplaceAll(strings.ReplaceAll(said, "medium hard", "medium"), " ", "-")
}

// fieldOf is the answer of a map in a column, for a number down.
func fieldOf(t *testing.T, m *advisor.DecisionMap, x int, down float64) string {
	t.Helper()
	for y, name := range m.Ys {
		lo, hi := 0.0, 1e9
		switch {
		case strings.HasPrefix(name, "at most "):
			hi = valueOf(strings.TrimPrefix(name, "at most "))
		case strings.HasPrefix(name, "at least "):
			lo = valueOf(strings.TrimPrefix(name, "at least "))
		case strings.Contains(name, " to "):
			from, to, _ := strings.Cut(name, " to ")
			lo, hi = valueOf(from), valueOf(to)
		case name == "not known":
			continue
		case name == "anything at all":
		default:
			lo, hi = valueOf(name), valueOf(name)
		}
		if um := float64(int(down*10+0.5)) / 10; lo <= um && um <= hi {
			return m.Answers[y][x]
		}
	}
	require.Fail(t, "no field", "%v in %v", down, m.Ys)
	return ""
}
