package gloss_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// gainOf is a gain over paired spots with just this mean and spread.
func gainOf(t *testing.T, spots int, mean, sd, step float64) gloss.Gain {
	t.Helper()
	meter := gloss.Meter{Scale: gloss.Gloss20, Resolution: step}
	gain, err := before(meter, singles(sample(spots, 50, 0), 0), singles(sample(spots, 50+mean, sd), 0)).Gain(0.95)
	require.NoError(t, err)
	return gain
}

func TestJudgeComparesTheWholeInterval(t *testing.T) {
	for name, c := range map[string]struct {
		mean, sd, smallest float64
		want               gloss.Verdict
		real               bool
	}{
		"well clear":                     {5, 1, 2, gloss.Worthwhile, true},
		"real, yet too small":            {1, 0.5, 2, gloss.TooSmall, true},
		"no change, proved":              {0, 0.5, 2, gloss.TooSmall, false},
		"straddles the limit":            {2.5, 1, 2, gloss.NotConclusive, true},
		"straddles the limit and zero":   {1, 4, 2, gloss.NotConclusive, false},
		"worse for certain":              {-3, 1, 2, gloss.Loss, false},
		"worse, perhaps":                 {-0.5, 1, 2, gloss.TooSmall, false},
		"any gain will do":               {1, 0.5, 0, gloss.Worthwhile, true},
		"any gain will do, none certain": {1, 4, 0, gloss.NotConclusive, false},
		"any gain will do, but a loss":   {-3, 1, 0, gloss.Loss, false},
	} {
		gain := gainOf(t, 5, c.mean, c.sd, 0)
		got, err := gain.Judge(c.smallest)
		require.NoError(t, err, name)
		assert.Equal(t, c.want, got, "%s: %v to %v", name, gain.Low, gain.High)
		assert.Equal(t, c.real, gain.Real(), "%s: %v to %v", name, gain.Low, gain.High)
	}
}

func TestAnIntervalThatTouchesTheLimitIsAbove(t *testing.T) {
	gain := gainOf(t, 5, 3, 1, 0)
	assert.Equal(t, gloss.Above, gain.Against(gain.Low))
	assert.Equal(t, gloss.Straddles, gain.Against(gain.High))
	assert.Equal(t, gloss.Below, gain.Against(math.Nextafter(gain.High, 100)))
}

func TestJudgeRefusesASenselessLimit(t *testing.T) {
	gain := gainOf(t, 5, 3, 1, 0)
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := gain.Judge(bad)
		var limits *gloss.RangeError
		require.ErrorAs(t, err, &limits)
		assert.Equal(t, "smallest worthwhile gain", limits.Field)
	}
}

// By hand, with quantiles as any printed table has them: three spots, sd 1, 1 GU from the limit. Seven are needed:
// 2.447/√7 = 0.925, while six give 2.571/√6 = 1.050.
func TestOutlookCountsSpots(t *testing.T) {
	for _, mean := range []float64{3, 1} {
		outlook, err := gainOf(t, 3, mean, 1, 0).Outlook(2, 50)
		require.NoError(t, err)
		assert.Equal(t, gloss.Outlook{Remedies: []gloss.Remedy{{Kind: gloss.MoreSpots, More: 4}}}, outlook, "mean %v", mean)
	}
}

// By hand: three readings each side, sd 1, 1 GU from the limit. Nine a side are needed: 2.120·√(2/9) = 0.999, while eight
// give 2.145·√(2/8) = 1.07. Readings after alone never do: the three before leave 4.303/√3 = 2.5.
func TestOutlookCountsReadingsOnOneSpot(t *testing.T) {
	gain, err := before(exact(gloss.Gloss20), oneSpot(sample(3, 50, 1)), oneSpot(sample(3, 53, 1))).Gain(0.95)
	require.NoError(t, err)
	outlook, err := gain.Outlook(2, 50)
	require.NoError(t, err)
	assert.Equal(t, gloss.Outlook{Remedies: []gloss.Remedy{{Kind: gloss.BothReadings, More: 6}}}, outlook)
}

// By hand: four spots read twice after, one GU up and down (variance 2, so 2/2 = 1 of a spot's mean, which is all of the
// spread between the spots). Six readings make 3.182·√(2/6/4) = 0.919, five 3.182·√(2/5/4) = 1.006.
func TestOutlookPrefersReadingsThatCanBeTakenNow(t *testing.T) {
	b := singles(sample(4, 50, 0), 0)
	a := singles(sample(4, 53, 1), 0)
	for i := range a {
		middle := a[i].Readings[0]
		a[i].Readings = []float64{middle - 1, middle + 1}
	}
	gain, err := before(exact(gloss.Gloss20), b, a).Gain(0.95)
	require.NoError(t, err)
	outlook, err := gain.Outlook(2, 50)
	require.NoError(t, err)
	require.Len(t, outlook.Remedies, 2)
	assert.Equal(t, gloss.Remedy{Kind: gloss.AfterReadings, More: 4}, outlook.Remedies[0])
	// The same spread over seven spots, as in the first example.
	assert.Equal(t, gloss.Remedy{Kind: gloss.MoreSpots, More: 3}, outlook.Remedies[1])
}

func TestOutlookSaysWhatStandsInTheWay(t *testing.T) {
	for name, c := range map[string]struct {
		mean, sd, step float64
		atMost         int
		want           gloss.Obstacle
	}{
		"on the limit":                 {2, 1, 0.1, 1000, gloss.OnTheLimit},
		"closer than a coarse display": {2.7, 1, 1, 1000, gloss.DisplayTooCoarse},
		"as close, with a fine one":    {2.7, 1, 0.1, 5, gloss.TooMany},
		"a hair from the limit":        {2.01, 3, 0, 1000, gloss.TooMany},
	} {
		outlook, err := gainOf(t, 3, c.mean, c.sd, c.step).Outlook(2, c.atMost)
		require.NoError(t, err, name)
		assert.Equal(t, gloss.Outlook{Obstacle: c.want}, outlook, name)
	}
}

func TestOutlookIsSettledWhenTheIntervalIsClear(t *testing.T) {
	for _, mean := range []float64{6, -3} {
		outlook, err := gainOf(t, 5, mean, 1, 0.1).Outlook(2, 10)
		require.NoError(t, err)
		assert.Equal(t, gloss.Outlook{Settled: true}, outlook)
	}
}

// What is asked for must do, and one fewer must not: checked by measuring again with that many spots.
func TestOutlookAsksForEnoughAndNoMore(t *testing.T) {
	for _, spots := range []int{2, 3, 5} {
		for _, mean := range []float64{2.6, 3, 4, 1} {
			for _, step := range []float64{0, 0.1, 0.5} {
				gain := gainOf(t, spots, mean, 1.2, step)
				outlook, err := gain.Outlook(2, 200)
				require.NoError(t, err)
				if outlook.Settled || len(outlook.Remedies) == 0 {
					continue
				}
				more := outlook.Remedies[0].More
				enough := gainOf(t, spots+more, mean, 1.2, step)
				assert.NotEqual(t, gloss.Straddles, enough.Against(2), "%d and %d spots, mean %v, step %v", spots, more, mean, step)
				fewer := gainOf(t, spots+more-1, mean, 1.2, step)
				assert.Equal(t, gloss.Straddles, fewer.Against(2), "%d and %d spots, mean %v, step %v", spots, more-1, mean, step)
			}
		}
	}
}

func TestOutlookRefuses(t *testing.T) {
	gain := gainOf(t, 3, 3, 1, 0.1)
	_, err := gain.Outlook(2, 0)
	assert.EqualError(t, err, "most readings to ask for: 0 is outside 1 to 1000")
	_, err = gain.Outlook(math.NaN(), 5)
	assert.ErrorContains(t, err, "limit: NaN GU is outside")
}
