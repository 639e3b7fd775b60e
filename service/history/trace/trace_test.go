package trace_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

func ptr[T any](v T) *T { return &v }

// any of words that are listed and words that are not, numbers that have a short form and numbers that have none.
func anyWord(r *rand.Rand) string {
	return []string{"finish", "paint.softness", "", "high-voltage-and-airbags", "wash-marks 2.5", "bonnet", "the shop's own rule, ä", fmt.Sprint("p-", r.IntN(9))}[r.IntN(8)]
}

func anyNumber(r *rand.Rand) float64 {
	return []float64{
		0, 2, -1.5, 104.3, 104.30000000000001, 0.001, 1e300, math.MaxFloat64, math.SmallestNonzeroFloat64, math.Copysign(0, -1), 1 << 52, -0.07, r.NormFloat64(),
	}[r.IntN(13)]
}

func anyFacts(r *rand.Rand, before map[string]any) map[string]any {
	out := map[string]any{}
	for name, v := range before {
		if r.IntN(4) > 0 {
			out[name] = v
		}
	}
	for range r.IntN(6) {
		out[anyWord(r)+"x"[:r.IntN(2)]] = []any{anyNumber(r), anyWord(r), r.IntN(2) == 0}[r.IntN(3)]
	}
	return out
}

func anyDecision(r *rand.Rand) *history.Decision {
	d := &history.Decision{RuleSet: strings.Repeat("5e", r.IntN(33)), Trial: r.Int64N(1000)}
	for range r.IntN(4) {
		d.Panels = append(d.Panels, history.PanelDecided{Panel: anyWord(r), Verdict: anyWord(r)})
	}
	var facts map[string]any
	for range r.IntN(9) {
		facts = anyFacts(r, facts)
		s := history.FactSheet{Panel: anyWord(r), About: anyWord(r), Facts: facts}
		for range r.IntN(7) {
			s.Answers = append(s.Answers, history.TableAnswer{Table: []string{"start", "cautions", "own"}[r.IntN(3)], Rule: anyWord(r), Answer: anyWord(r)})
		}
		d.Sheets = append(d.Sheets, s)
	}
	return d
}

// sheetsOf reads the sheets of a trace as they were.
func sheetsOf(t testing.TB, data []byte, words *trace.Words, reader *trace.Reader, facts *trace.Facts) (trace.Outline, []history.FactSheet) {
	t.Helper()
	head, err := reader.Decision(data, facts)
	require.NoError(t, err)
	var out []history.FactSheet
	var sheet trace.Sheet
	for reader.Sheet(&sheet, facts) {
		s := history.FactSheet{Panel: sheet.Panel, About: sheet.About, Facts: map[string]any{}}
		for _, n := range facts.Known() {
			switch v := facts.At(n); v.Kind {
			case trace.Number:
				s.Facts[words.Word(n)] = v.Number
			case trace.Word:
				s.Facts[words.Word(n)] = v.Word
			case trace.Flag:
				s.Facts[words.Word(n)] = v.Flag
			}
		}
		for _, q := range sheet.Asked {
			for _, a := range q.Said {
				require.Equal(t, q.Table, a.Table)
				s.Answers = append(s.Answers, a)
			}
		}
		out = append(out, s)
	}
	require.NoError(t, reader.Err())
	return head, out
}

// What is written of any decision is read back to the last bit, by a reader that has read others before.
func TestSheetsComeBackAsTheyWere(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	words := trace.NewWords()
	reader, facts := trace.NewReader(words), trace.NewFacts(words)
	for range 3000 {
		want := anyDecision(r)
		data := trace.Of(want)
		assert.Equal(t, history.KindDecision, trace.KindOf(data))
		head, sheets := sheetsOf(t, data, words, reader, facts)
		require.Equal(t, trace.Outline{RuleSet: want.RuleSet, Trial: want.Trial, Sheets: len(want.Sheets)}, head)
		require.Equal(t, fmt.Sprintf("%#v", want.Sheets), fmt.Sprintf("%#v", sheets), "minus nought is not nought")
		body, err := reader.Body(data)
		require.NoError(t, err)
		require.Equal(t, &history.Decision{RuleSet: want.RuleSet, Trial: want.Trial, Panels: want.Panels}, body)
		require.Equal(t, data, trace.Of(want), "the same event has the same trace")
	}
}

func TestOtherEventsComeBackAsFarAsALookBackNeedsThem(t *testing.T) {
	inspection := &history.Inspection{
		Gauge: &history.Gauge{Kind: "combined"}, Panels: []history.PanelFound{
			{ID: "bonnet", Substrate: "steel", Softness: "soft", Shade: "dark", Defects: []history.Defect{{Kind: "wash-marks", Severity: ptr(2.5)}, {Kind: "chips"}}},
			{ID: "my panel"},
		},
	}
	seen := &history.Inspection{Panels: []history.PanelFound{inspection.Panels[0], {ID: "my panel", Defects: nil}}}
	seen.Panels[0].Substrate = ""
	trial := &history.Trial{Panel: "bonnet", Step: "cut", FreshSection: true, Minutes: ptr(7.25)}
	worked := *trial
	worked.Machine, worked.Pad = "rotary", "wool"
	for name, row := range map[string]struct{ body, want history.Body }{
		"inspection":              {inspection, seen},
		"readings":                {&history.Readings{Panel: "roof", When: history.Before, PanelC: ptr(21.0)}, &history.Readings{Panel: "roof", When: history.Before}},
		"trial":                   {&worked, trial},
		"trial that nobody timed": {&history.Trial{Panel: "p", Step: "finish"}, &history.Trial{Panel: "p", Step: "finish"}},
		"correction":              {&history.Correction{Sequence: 3, Why: "w", Instead: &worked}, &history.Correction{Sequence: 3, Instead: trial}},
		"withdrawal":              {&history.Correction{Sequence: 300, Why: "w"}, &history.Correction{Sequence: 300}},
		"correction of a plan":    {&history.Correction{Sequence: 3, Instead: &history.Plan{}}, &history.Correction{Sequence: 3}},
	} {
		data := trace.Of(row.body)
		assert.Equal(t, row.body.Kind(), trace.KindOf(data), name)
		got, err := trace.NewReader(trace.NewWords()).Body(data)
		require.NoError(t, err, name)
		assert.Equal(t, row.want, got, name)
	}
	for _, body := range []history.Body{&history.Booked{}, &history.Plan{}, &history.Progress{}, &history.Finished{}} {
		assert.Nil(t, trace.Of(body), "%s", body.Kind())
	}
}

func TestWhatCannotBeReadIsTold(t *testing.T) {
	whole := trace.Of(anyDecision(rand.New(rand.NewPCG(1, 1))))
	later := append([]byte{9}, whole[1:]...)
	reader := trace.NewReader(trace.NewWords())
	_, err := reader.Body(later)
	require.EqualError(t, err, "the trace is of version 9, and this program reads 1; use a later program")
	assert.Empty(t, trace.KindOf(later))
	_, err = reader.Body([]byte{1, 77})
	require.EqualError(t, err, "the trace is of kind 77, which this program does not know; use a later program")
	_, err = reader.Body([]byte{1, 3, 0xfe, 0x7f})
	require.ErrorContains(t, err, "use a later program", "a word that only a longer list has")
	for n := range len(whole) - 1 {
		require.Error(t, readAll(reader, whole[:n]), "cut off after %d bytes", n)
	}
	require.NoError(t, readAll(reader, whole))
}

func readAll(reader *trace.Reader, data []byte) error {
	if _, err := reader.Body(data); err != nil {
		return err
	}
	facts := trace.NewFacts(trace.NewWords())
	if _, err := reader.Decision(data, facts); err != nil {
		return err
	}
	var sheet trace.Sheet
	for reader.Sheet(&sheet, facts) {
	}
	return reader.Err()
}

// The list of words is part of what is stored: this is the list that was released, and it may only grow.
func TestListedWordsStayWhereTheyAre(t *testing.T) {
	const released, print = 571, "d7b0fb6bb69cebfda903dcc0fe7f82b6ad6dac6fecd8a60f005df0a6f35d1ae9"
	words := trace.Listed()
	require.GreaterOrEqual(t, len(words), released)
	sum := sha256.Sum256([]byte(strings.Join(words[:released], "\n")))
	assert.Equal(t, print, hex.EncodeToString(sum[:]))
	seen := map[string]bool{}
	for _, w := range words {
		assert.False(t, seen[w], "%q is listed twice", w)
		seen[w] = true
	}
}

// FuzzRead reads anything as a trace: it is refused, or what is read of it can be written and read again.
func FuzzRead(f *testing.F) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 20 {
		f.Add(trace.Of(anyDecision(r)))
	}
	f.Add(trace.Of(&history.Correction{Sequence: 3, Instead: &history.Trial{Panel: "p", Step: "cut", Minutes: ptr(1.5)}}))
	f.Add(trace.Of(&history.Inspection{Panels: []history.PanelFound{{ID: "p", Defects: []history.Defect{{Kind: "chips"}}}}}))
	f.Fuzz(func(t *testing.T, data []byte) {
		words := trace.NewWords()
		reader, facts := trace.NewReader(words), trace.NewFacts(words)
		body, err := reader.Body(data)
		if err != nil {
			return
		}
		again, err := reader.Body(trace.Of(body))
		require.NoError(t, err)
		require.Equal(t, fmt.Sprintf("%#v", trace.Of(body)), fmt.Sprintf("%#v", trace.Of(again)))
		if body.Kind() != history.KindDecision {
			return
		}
		if _, err := reader.Decision(data, facts); err != nil {
			return
		}
		var sheet trace.Sheet
		for reader.Sheet(&sheet, facts) {
			require.LessOrEqual(t, len(sheet.Asked), len(data))
		}
	})
}
