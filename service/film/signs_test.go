package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// usual are thresholds as a shop might set them: common practice, no source. Limits on the clear are those that the
// published table joins (see testdata/allowance.csv).
var usual = film.Policy{
	ClearSharePct: 37, ClearFloorUm: 35.56, TakeSharePct: 100, TakeMostUm: 12.7,
	ThinUm: 90, RepaintUm: 180, FillerUm: 500, NeighbourUm: 40,
}

func signs(t *testing.T, m film.Measured, step *film.Step) []film.Sign {
	t.Helper()
	got, err := usual.Signs(m, step)
	require.NoError(t, err)
	return got
}

// Series films lie at 80 to 130 µm and in-line repaints on new vehicles reach 350 µm (DeKoLaKa data sheet, reported at
// sata.com): a high reading is evidence and must never be worded as proof.
func TestHighReadingIsEvidenceNotProof(t *testing.T) {
	got := signs(t, measure(t, ordinary, steel(flat("", 340)), 95), nil)
	require.Len(t, got, 1)
	assert.Equal(t, film.RepaintOrRework, got[0].Flag)
	assert.True(t, got[0].BeyondError)
	assert.Equal(t, "reads 340.0 µm at spot 1, over 180.0 µm: repaint or factory rework is possible", got[0].String())
	assert.NotContains(t, got[0].String(), "has been")
}

func TestSeriesFilmShowsNoSign(t *testing.T) {
	for _, um := range []film.Microns{95, 110, 130} { // within the series range of the same data sheet
		assert.Empty(t, signs(t, measure(t, ordinary, steel(flat("", um)), 95), nil), um)
	}
}

func TestThinGoesByTheLowerBound(t *testing.T) {
	m := measure(t, ordinary, steel(flat("roof edge", 91), flat("middle", 120)), 95)
	got := signs(t, m, nil)
	require.Len(t, got, 1)
	assert.Equal(t, film.Sign{Flag: film.Thin, Where: "roof edge", ValueUm: m.LowestBoundUm, LimitUm: 90}, got[0])
	assert.Equal(t, "may be as thin as 89.2 µm at roof edge, under 90.0 µm: treat as thin", got[0].String())

	sure := signs(t, measure(t, ordinary, steel(flat("roof edge", 80)), 95), nil)
	require.Len(t, sure, 1)
	assert.True(t, sure[0].BeyondError, "80 µm is under 90 µm by more than the gauge's error")
}

func TestFillerIsAlsoPossibleRepaint(t *testing.T) {
	got := signs(t, measure(t, ordinary, steel(flat("sill", 640)), 95), nil)
	require.Len(t, got, 2)
	assert.Equal(t, film.RepaintOrRework, got[0].Flag)
	assert.Equal(t, film.FillerSuspected, got[1].Flag)
	assert.Equal(t, "reads 640.0 µm at sill, over 500.0 µm: filler under the paint is possible", got[1].String())
}

func TestReadingAtTheThresholdIsNoSign(t *testing.T) {
	assert.Empty(t, signs(t, measure(t, ordinary, steel(flat("", 180)), 95), nil))
	just := signs(t, measure(t, ordinary, steel(flat("", 181)), 95), nil)
	require.Len(t, just, 1)
	assert.False(t, just[0].BeyondError, "one micron over is within the gauge's error")
}

func TestStepToANeighbourIsASignOnEitherSide(t *testing.T) {
	for name, tt := range map[string]struct {
		diff, half film.Microns
		want       bool
		beyond     bool
	}{
		"thicker, surely":       {60, 5, true, true},
		"thinner, surely":       {-60, 5, true, true},
		"thicker, within error": {42, 5, true, false},
		"at the threshold":      {40, 5, false, false},
	} {
		t.Run(name, func(t *testing.T) {
			m := measure(t, ordinary, steel(flat("", 120)), 95)
			got := signs(t, m, &film.Step{From: "left door", To: "left wing", DiffUm: tt.diff, HalfUm: tt.half})
			if !tt.want {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1)
			assert.Equal(t, film.RepaintOrRework, got[0].Flag)
			assert.Equal(t, tt.beyond, got[0].BeyondError)
			assert.Contains(t, got[0].String(), "from left wing, over 40.0 µm: repaint or factory rework of one of the two is possible")
			assert.NotContains(t, got[0].String(), "-")
		})
	}
}

func TestSignsFollowThePolicy(t *testing.T) {
	strict := usual
	strict.RepaintUm, strict.ThinUm = 120, 130
	got, err := strict.Signs(measure(t, ordinary, steel(flat("", 125)), 95), nil)
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, film.Thin, got[0].Flag)
	assert.Equal(t, film.RepaintOrRework, got[1].Flag)
}

func TestSignsNeedTheWholeFilm(t *testing.T) {
	_, err := usual.Signs(measureTop(t, 42), nil)
	assert.ErrorIs(t, err, film.ErrNotTotal)
}

func TestPolicyCheckReportsEveryField(t *testing.T) {
	bad := film.Microns(math.NaN())
	p := film.Policy{
		ClearSharePct: 101, ClearFloorUm: bad, TakeSharePct: -1, TakeMostUm: bad,
		ThinUm: bad, RepaintUm: -1, FillerUm: 3001, NeighbourUm: bad,
	}
	m := measure(t, ordinary, steel(flat("", 120)), 95)
	_, signsErr := p.Signs(m, nil)
	_, usableErr := p.Usable(&m, film.Removal{})
	for _, err := range []error{p.Check(), signsErr, usableErr} {
		for _, field := range []string{
			"clear_share_pct", "clear_floor_um", "take_share_pct", "take_most_um",
			"thin_um", "repaint_um", "filler_um", "neighbour_um",
		} {
			assert.ErrorContains(t, err, field)
		}
	}
	assert.NoError(t, usual.Check())
}
