package rpc

import (
	"testing"

	"github.com/stretchr/testify/assert"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// Words are shared by the contract and the rooms behind it; a word that only one side knows would be lost without a sound.
func TestTheContractAndTheRoomsShareTheirWords(t *testing.T) {
	states := []string{advisor.Ready, advisor.Prepare, advisor.Wait, advisor.NothingToDo, advisor.Refer, advisor.Stop}
	assert.Equal(t, vocabulary.Words(glossladderv1.PanelState(0).Descriptor()), states)
	verdicts := []string{advisor.Accept, advisor.Adjust, advisor.StepUp, advisor.StepDown, advisor.Refine, advisor.Repeat, advisor.StopWork}
	assert.Equal(t, vocabulary.Words(glossladderv1.VerdictKind(0).Descriptor()), verdicts)
	substrates := []string{string(film.Steel), string(film.Aluminium), string(film.Plastic), string(film.Carbon), string(film.Fibreglass)}
	assert.Equal(t, vocabulary.Words(glossladderv1.Substrate(0).Descriptor()), substrates)
	assert.ElementsMatch(t, vocabulary.Words(glossladderv1.MachineClass(0).Descriptor()), catalogue.Words(catalogue.MachineClasses()))
	assert.ElementsMatch(t, vocabulary.Words(glossladderv1.PadClass(0).Descriptor()), catalogue.Words(catalogue.PadClasses()))
	assert.ElementsMatch(t, vocabulary.Words(glossladderv1.LiquidClass(0).Descriptor()), catalogue.Words(catalogue.LiquidClasses()))
	assert.ElementsMatch(t, vocabulary.Words(glossladderv1.FilmGaugeKind(0).Descriptor()), catalogue.Words(catalogue.GaugeKinds()))
}
