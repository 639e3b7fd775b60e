package film_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// Magnetic gauges read on steel (ISO 2178), eddy-current gauges on other metal (ISO 2360), both report the sum of all
// layers (ASTM D7091); composites and plastic need ultrasonic gauges (ASTM D6132). Vehicle makers say the same of their
// plastic covers (Ford position statement, 2021).
func TestWhatAGaugeCanRead(t *testing.T) {
	substrates := []film.Substrate{film.Steel, film.Aluminium, film.Plastic, film.Carbon, film.Fibreglass, ""}
	for kind, can := range map[film.GaugeKind][6]bool{
		film.Magnetic:   {true, false, false, false, false, false},
		film.Eddy:       {false, true, false, false, false, false},
		film.Combined:   {true, true, false, false, false, false},
		"":              {true, true, false, false, false, false},
		film.Ultrasonic: {true, true, true, true, true, false},
		"sonar":         {},
	} {
		for i, s := range substrates {
			err := kind.CanRead(s, film.Total)
			assert.Equal(t, can[i], err == nil, "%q on %q: %v", kind, s, err)
			assert.Equal(t, can[i] && kind == film.Ultrasonic, kind.CanRead(s, film.Top) == nil, "top layer by %q on %q", kind, s)
		}
	}
}

func TestPlasticIsRefusedBeforeAnyFigureIsLookedAt(t *testing.T) {
	for _, s := range []film.Substrate{film.Plastic, film.Carbon, film.Fibreglass} {
		_, err := film.Measure(ordinary, film.Panel{Substrate: s, Spots: []film.Spot{flat("a", 100)}}, 95)
		var cannot *film.CannotReadError
		require.ErrorAs(t, err, &cannot, s)
		assert.Equal(t, film.CannotReadError{Kind: film.Combined, Substrate: s, Layer: film.Total}, *cannot)
	}
}

func TestUltrasonicReadsPlastic(t *testing.T) {
	gauge := film.Gauge{Kind: film.Ultrasonic, Accuracy: ordinary.Accuracy}
	m, err := film.Measure(gauge, film.Panel{Substrate: film.Plastic, Layer: film.Top, Spots: []film.Spot{flat("a", 42)}}, 95)
	require.NoError(t, err)
	assert.Equal(t, film.Top, m.Layer)
}

func TestRefusalSaysWhatWouldRead(t *testing.T) {
	for name, tt := range map[string]struct {
		kind      film.GaugeKind
		substrate film.Substrate
		layer     film.Layer
		want      string
	}{
		"plastic":             {film.Combined, film.Plastic, film.Total, "a magnetic/eddy-current gauge cannot read film on plastic; use an ultrasonic gauge (ASTM D6132), or leave film out and work without a budget"},
		"magnetic, aluminium": {film.Magnetic, film.Aluminium, film.Total, "a magnetic gauge cannot read film on aluminium; use an eddy-current gauge (ISO 2360)"},
		"eddy, steel":         {film.Eddy, film.Steel, film.Total, "an eddy-current gauge cannot read film on steel; use a magnetic gauge (ISO 2178)"},
		"clear by magnetism":  {film.Combined, film.Steel, film.Top, "a magnetic/eddy-current gauge reads all layers together, not the top layer alone; give the readings as total film, or use an ultrasonic gauge that tells layers apart (ASTM D6132)"},
		"unknown substrate":   {film.Combined, "", film.Total, "what the panel is made of is not stated, so what a magnetic/eddy-current gauge shows on it means nothing; state the substrate"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.EqualError(t, tt.kind.CanRead(tt.substrate, tt.layer), tt.want)
		})
	}
}
