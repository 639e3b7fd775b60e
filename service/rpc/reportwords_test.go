package rpc_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/report/words"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// A report says the contract's words in its own languages; a word that is added to the contract needs a text in each.
func TestReportsHaveATextForEveryWordOfTheContract(t *testing.T) {
	for _, tag := range words.Locales() {
		l, err := words.For(tag)
		require.NoError(t, err)
		for group, enum := range map[string]protoreflect.EnumDescriptor{
			"stage": glossladderv1.JobStage(0).Descriptor(), "goal": glossladderv1.GoalLevel(0).Descriptor(), "protection": glossladderv1.Protection(0).Descriptor(),
			"system": glossladderv1.PaintSystem(0).Descriptor(), "softness": glossladderv1.Softness(0).Descriptor(), "shade": glossladderv1.Shade(0).Descriptor(),
			"substrate": glossladderv1.Substrate(0).Descriptor(), "defect": glossladderv1.DefectKind(0).Descriptor(), "step": glossladderv1.Step(0).Descriptor(),
			"machine": glossladderv1.MachineClass(0).Descriptor(), "pad": glossladderv1.PadClass(0).Descriptor(), "liquid": glossladderv1.LiquidClass(0).Descriptor(),
			"verdict": glossladderv1.VerdictKind(0).Descriptor(), "state": glossladderv1.PanelState(0).Descriptor(),
		} {
			known := vocabulary.Words(enum)
			require.NotEmpty(t, known, group)
			for _, word := range known {
				assert.True(t, l.Has(group, word), "%s: %s %s", tag, group, word)
			}
		}
		for _, part := range vocabulary.Words(glossladderv1.PanelPart(0).Descriptor()) {
			assert.True(t, part == "other" || l.Has("part", part), "%s: part %s", tag, part)
		}
	}
}
