package strictyaml_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

func TestProblemsSortByFileLineAndColumn(t *testing.T) {
	at := func(file string, line, col int, message string) strictyaml.Problem {
		return strictyaml.Problem{File: file, Pos: strictyaml.Pos{Line: line, Col: col}, Message: message}
	}
	ps := strictyaml.Problems{at("b", 1, 1, "e"), at("a", 10, 1, "d"), at("a", 9, 2, "b"), at("a", 9, 10, "c"), at("a", 9, 1, "a first"), at("a", 9, 1, "a second")}
	ps.Sort()
	assert.EqualError(t, ps, "a:9:1: a first\na:9:1: a second\na:9:2: b\na:9:10: c\na:10:1: d\nb:1:1: e")
}

func TestNoProblemsAreNoError(t *testing.T) {
	assert.NoError(t, strictyaml.Problems(nil).Err())
	assert.NoError(t, strictyaml.Problems{}.Err())
	assert.EqualError(t, strictyaml.Problems{{File: "f", Message: "m", Hint: "h"}}.Err(), "f:0:0: m; h")
}
