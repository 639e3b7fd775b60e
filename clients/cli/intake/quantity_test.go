package intake

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/vocabulary"
)

func TestQuantityConvertsExactly(t *testing.T) {
	for name, row := range map[string]struct {
		text string
		of   unit
		bare Bare
		want float64
	}{
		// The inch is 25.4 mm (NIST SP 811, Appendix B.8: mil, 2.54 E+01 µm).
		"a mil":                       {"1 mil", microns, Bare{}, 25.4},
		"mils, no space":              {"4.6mils", microns, Bare{}, 116.84},
		"a bare mil":                  {"0.1", microns, Bare{FilmMil: true}, 2.54},
		"microns with a micro sign":   {"118 µm", microns, Bare{FilmMil: true}, 118},
		"microns with a Greek mu":     {"118 μm", microns, Bare{}, 118},
		"microns in plain letters":    {"118.5UM", microns, Bare{}, 118.5},
		"a thousand mil":              {"1000 mil", microns, Bare{}, 25400},
		"water freezes":               {"32 °F", celsius, Bare{}, 0}, // NIST SP 811, B.8: t/°C = (t/°F - 32)/1.8
		"water boils":                 {"212 F", celsius, Bare{}, 100},
		"where the scales meet":       {"-40", celsius, Bare{HeatF: true}, -40},
		"no negative zero":            {"-0", celsius, Bare{}, 0},
		"a celsius among fahrenheits": {"20 ° C", celsius, Bare{HeatF: true}, 20},
		"gloss":                       {"82.4 GU", glossGU, Bare{FilmMil: true, HeatF: true}, 82.4},
		"a share":                     {"45%", percent, Bare{}, 45},
	} {
		got, message, _ := quantity(row.text, row.of, row.bare)
		assert.Empty(t, message, name)
		assert.Equal(t, row.want, got, name)
	}
}

// A field's unit is told by its name. Where the field shares a fact's bounds it must be the fact's unit.
func TestEveryFieldOfARequestCanBeReadInItsOwnUnit(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	numbers := 0
	seen := map[protoreflect.FullName]bool{}
	var walk func(protoreflect.MessageDescriptor)
	walk = func(message protoreflect.MessageDescriptor) {
		if seen[message.FullName()] {
			return
		}
		seen[message.FullName()] = true
		for i := range message.Fields().Len() {
			field := message.Fields().Get(i)
			switch {
			case field.IsMap():
				assert.Equal(t, "shop", string(field.Name()), "what else has names of its own, %s, nobody reads yet", field.FullName())
				continue
			case field.Message() != nil:
				walk(field.Message())
				continue
			case field.Kind() == protoreflect.DoubleKind:
				numbers++
			}
			assert.Contains(t, []protoreflect.Kind{protoreflect.DoubleKind, protoreflect.EnumKind, protoreflect.BoolKind, protoreflect.StringKind}, field.Kind(), field.FullName())
			if id, ok := schema.FactID(vocabulary.SameAs(field)); ok {
				assert.Equal(t, schema.Fact(id).Unit, string(unitOf(field)), field.FullName())
			}
			if unitOf(field) != noUnit {
				assert.NotEmpty(t, spellings(unitOf(field)), field.FullName())
			}
		}
	}
	walk((&glossladderv1.RecommendRequest{}).ProtoReflect().Descriptor())
	walk((&glossladderv1.JudgeTrialRequest{}).ProtoReflect().Descriptor())
	assert.Greater(t, numbers, 20)
}
