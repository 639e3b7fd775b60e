package access

import (
	"reflect"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEveryTextOfThePairingPageIsInBothLanguages(t *testing.T) {
	english, german := reflect.ValueOf(englishPair()), reflect.ValueOf(germanPair())
	verbs := regexp.MustCompile(`%\w`)
	for i := range english.NumField() {
		name := english.Type().Field(i).Name
		en, de := english.Field(i).String(), german.Field(i).String()
		assert.NotEmpty(t, en, name)
		assert.NotEmpty(t, de, name)
		assert.Equal(t, verbs.FindAllString(en, -1), verbs.FindAllString(de, -1), name)
		if name != "Code" { // the same word in both
			assert.NotEqual(t, en, de, name)
		}
	}
}
