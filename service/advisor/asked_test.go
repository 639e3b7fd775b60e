package advisor_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
)

// asksAgain puts every question of a record again and holds the answers against those on record.
func asksAgain(t *testing.T, set *rules.Set, record advisor.Record) (asked int) {
	t.Helper()
	var decision rules.Decision
	for _, sheet := range record.Sheets {
		for i := 0; i < len(sheet.Answers); {
			name := sheet.Answers[i].Table
			var said []string
			for ; i < len(sheet.Answers) && sheet.Answers[i].Table == name; i++ {
				if rule := sheet.Answers[i].Rule; rule != "" {
					said = append(said, rule)
				}
			}
			table, ok := set.Table(name)
			require.True(t, ok)
			table.Answer(sheet.Facts, &decision)
			var again []string
			for _, winner := range decision.Winners {
				again = append(again, table.Rules()[winner].ID)
			}
			require.Equal(t, said, again, "%s about %q", name, sheet.About)
			asked++
		}
	}
	return asked
}

func TestARecordedQuestionPutAgainGetsTheSameAnswer(t *testing.T) {
	a := shop(t)
	random := rand.New(rand.NewPCG(5, 11))
	asked := 0
	for range 60 {
		in := inspection(func(in *advisor.Inspection) {
			in.Panels[0].Paint.Softness = []string{"", "soft", "medium", "hard"}[random.IntN(4)]
			in.Panels[0].Defects = []advisor.Defect{{Kind: "wash-marks", Severity: ptr(float64(random.IntN(6)))}, {Kind: "organic-etching"}}
			roof := in.Panels[0]
			roof.ID = "roof"
			in.Panels = append(in.Panels, roof)
		})
		plain, err := a.Recommend(in)
		require.NoError(t, err)
		said, records, err := a.RecommendForRecord(in)
		require.NoError(t, err)
		require.Equal(t, plain, said, "being recorded changes no answer")
		require.Len(t, records, 2)
		trials := []advisor.Trial{anyTrial(random), anyTrial(random)}
		verdict, err := a.JudgeTrial(in, "roof", trials)
		require.NoError(t, err)
		same, record, err := a.JudgeTrialForRecord(in, "roof", trials)
		require.NoError(t, err)
		require.Equal(t, verdict, same)
		for _, r := range append(records, record) {
			asked += asksAgain(t, a.Set(), r)
		}
	}
	assert.Greater(t, asked, 2000)
}

func TestARecordTellsWhatWasAskedAboutWhat(t *testing.T) {
	a := shop(t)
	in := inspection()
	_, records, err := a.RecommendForRecord(in)
	require.NoError(t, err)
	record := records[0]
	assert.Equal(t, "bonnet", record.Panel)
	assert.InDelta(t, 95, record.ConfidencePct, 1e-9)
	assert.Len(t, record.Removal, 3, "every step, advised or not")
	asked := func(r advisor.Record) (all []string) {
		for _, sheet := range r.Sheets {
			for _, answer := range sheet.Answers {
				if about := answer.Table + " " + sheet.About; !slices.Contains(all, about) {
					all = append(all, about)
				}
			}
		}
		return all
	}
	assert.Equal(t, []string{
		"policy ", "removal finish", "removal polish", "removal cut", "start wash-marks 2", "limit ", "readiness ", "ladder ",
		"settings finish", "cautions ", "cautions wash-marks 2", "cautions finish",
	}, asked(record))

	_, judged, err := a.JudgeTrialForRecord(in, "bonnet", []advisor.Trial{trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)})
	require.NoError(t, err)
	verdicts := 0
	for _, sheet := range judged.Sheets {
		for _, answer := range sheet.Answers {
			if answer.Table == "verdict" {
				verdicts++
				assert.Equal(t, "polish", sheet.About, "the last trial alone")
			}
		}
	}
	assert.Equal(t, 1, verdicts)
}
