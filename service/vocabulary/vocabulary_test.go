package vocabulary_test

import (
	"testing"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/vocabulary"
)

func TestSchemaReadsAFactWholeFromTheContract(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)

	fact := named(t, schema, "film.usable_um")
	assert.Equal(t, rules.Fact{
		Name: "film.usable_um", Label: "usable film", Unit: "µm", Kind: rules.Number, Min: 0, Max: 500, Step: 0.1, Class: rules.Measurable,
		Meaning: "What may still be taken off over the vehicle's life, a lower bound under the policy.",
		Learn:   "measure film thickness, at least three readings on each of several spots",
	}, fact)

	softness := named(t, schema, "paint.softness")
	assert.Equal(t, []string{"very-soft", "soft", "medium", "hard", "very-hard"}, softness.Words)
	assert.True(t, softness.Ordered)
	assert.False(t, named(t, schema, "defect.kind").Ordered, "kinds of defect have no order")
	assert.Equal(t, named(t, schema, "step.start").Scale, named(t, schema, "step.limit").Scale, "steps compare with steps")
}

func TestEveryFactHasAMeaningAndALabel(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	for _, fact := range schema.Facts() {
		assert.NotEmpty(t, fact.Meaning, fact.Name)
		assert.NotEmpty(t, fact.Label, fact.Name)
	}
	for _, result := range schema.Results() {
		assert.NotEmpty(t, result.Meaning, result.Table)
		for _, field := range result.Fields {
			assert.NotEmpty(t, field.Meaning, "%s.%s", result.Table, field.Name)
		}
	}
}

func TestTablesComeInTheOrderInWhichTheyAreAsked(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	var tables []string
	for _, result := range schema.Results() {
		tables = append(tables, result.Table)
	}
	assert.Equal(t, []string{
		"policy", "removal", "readiness", "start", "limit", "ladder", "settings", "verdict", "cautions",
		"area", "effort", "around", "visit", "estimate",
	}, tables[:14])

	start, _ := schema.Result("start")
	assert.Equal(t, "step", start.Priority)
	assert.True(t, start.HighestWins, "the strongest start wins")
	assert.Equal(t, "The mildest step worth trying for one defect. The strongest over all rules and all defects counts.", start.Meaning)
	limit, _ := schema.Result("limit")
	assert.False(t, limit.HighestWins, "the mildest limit wins")
}

// A field of a request that names a fact must have the fact's bounds or words: then no request can pass validation and
// be refused by the rules, or the other way round.
func TestRequestFieldsShareTheBoundsOfTheFactsTheyName(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	checked := 0
	for _, file := range []protoreflect.FileDescriptor{glossladderv1.File_glossladder_v1_inspection_proto, glossladderv1.File_glossladder_v1_trial_proto} {
		for i := range file.Messages().Len() {
			fields := file.Messages().Get(i).Fields()
			for k := range fields.Len() {
				field := fields.Get(k)
				name := vocabulary.SameAs(field)
				if name == "" {
					continue
				}
				checked++
				fact := named(t, schema, name)
				switch fact.Kind {
				case rules.Number:
					number := doubleRules(field)
					assert.Equal(t, fact.Min, number.GetGte(), "%s least", field.FullName())
					assert.Equal(t, fact.Max, number.GetLte(), "%s most", field.FullName())
				case rules.Word:
					assert.Equal(t, fact.Words, vocabulary.Words(field.Enum()), field.FullName())
				default:
					assert.Equal(t, protoreflect.BoolKind, field.Kind(), field.FullName())
				}
			}
		}
	}
	assert.Greater(t, checked, 30, "fields that name a fact")
}

func TestWordsAndValuesAreEachOthersInverse(t *testing.T) {
	enums := glossladderv1.File_glossladder_v1_words_proto.Enums()
	for i := range enums.Len() {
		enum := enums.Get(i)
		for _, word := range vocabulary.Words(enum) {
			number, ok := vocabulary.Value(enum, word)
			require.True(t, ok, "%s %s", enum.Name(), word)
			assert.Equal(t, word, vocabulary.Word(enum.Values().ByNumber(number)))
		}
	}
	_, ok := vocabulary.ValueOf[glossladderv1.Softness]("squishy")
	assert.False(t, ok)
	none, ok := vocabulary.ValueOf[glossladderv1.Softness]("")
	assert.True(t, ok)
	assert.Equal(t, glossladderv1.Softness_SOFTNESS_UNSPECIFIED, none)
	assert.Equal(t, "polish-finish", vocabulary.WordOf(glossladderv1.Ladder_LADDER_POLISH_FINISH))
}

func TestFactsSayHowToLearnThem(t *testing.T) {
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	asked := 0
	for _, fact := range schema.Facts() {
		assert.NotContains(t, fact.Learn, ".", "an instruction without a full stop: %s", fact.Name)
		if fact.Learn != "" {
			asked++
		}
	}
	assert.Greater(t, asked, 20)
	assert.NotEmpty(t, named(t, schema, "film.usable_um").Learn)
	assert.Equal(t, named(t, schema, "film.lowest_um").Learn, named(t, schema, "film.usable_um").Learn, "one piece of work tells both")
}

func named(t *testing.T, schema *rules.Schema, name string) rules.Fact {
	t.Helper()
	id, ok := schema.FactID(name)
	require.True(t, ok, "fact %s", name)
	return schema.Fact(id)
}

func doubleRules(field protoreflect.FieldDescriptor) *validate.DoubleRules {
	constraints, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
	if field.IsList() {
		return constraints.GetRepeated().GetItems().GetDouble()
	}
	return constraints.GetDouble()
}
