package rpc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestABellIsHeardByThoseWhoListenAndForgetsThoseWhoLeft(t *testing.T) {
	var b bell
	b.ring("spring") // nobody hears
	one, hangUp := b.listen("spring")
	two, alsoHangUp := b.listen("spring")
	other, otherHangsUp := b.listen("autumn")
	b.ring("spring")
	b.ring("spring") // nobody has listened in between: one ring says it all
	assert.Len(t, one, 1)
	assert.Len(t, two, 1)
	assert.Empty(t, other)
	hangUp()
	<-two
	b.ring("spring")
	assert.Len(t, two, 1)
	alsoHangUp()
	otherHangsUp()
	assert.Empty(t, b.hears)
}
