package importlaw_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/importlaw"
)

// bakery is a law for an invented tree: ovens are reckoned with, orders come over the wire.
func bakery() importlaw.Law {
	return importlaw.Law{
		Module: "example.org/bakery",
		Rooms: []importlaw.Room{
			{Path: "oven", Pure: true, Libraries: []string{"example.net/heat"}},
			{Path: "dough", Pure: true, Uses: []string{"oven"}},
			{Path: "dough/sour", Pure: true},
			{Path: "door", Uses: []string{"dough"}, Libraries: []string{"example.net/wire"}},
		},
	}
}

func TestCheckFindsEachBreachAtItsLine(t *testing.T) {
	tests := []struct {
		name, file, source string
		want               []string
	}{
		{"an arrow that the law has", "dough/a.go", "package dough\nimport \"example.org/bakery/oven\"\n", nil},
		{"an arrow to the folder itself and below", "dough/mix/a.go", "package mix\nimport \"example.org/bakery/dough/rest\"\n", nil},
		{
			"an arrow against the law", "oven/a.go", "package oven\nimport \"example.org/bakery/dough\"\n",
			[]string{"oven/a.go:2: oven may not import example.org/bakery/dough: no arrow runs from oven to dough"},
		},
		{
			"a room inside a room is a room of its own", "dough/a.go", "package dough\nimport \"example.org/bakery/dough/sour\"\n",
			[]string{"dough/a.go:2: dough may not import example.org/bakery/dough/sour: no arrow runs from dough to dough/sour"},
		},
		{
			"an import of a folder in no room", "door/a.go", "package door\nimport \"example.org/bakery/cellar\"\n",
			[]string{"door/a.go:2: door may not import example.org/bakery/cellar: it lies in no room"},
		},
		{"a folder whose name only begins like a room's", "ovens/a.go", "package ovens\n", []string{"ovens/a.go:1: folder ovens lies in no room: add it to the law"}},
		{"a listed library and what is below it", "oven/a.go", "package oven\nimport (\n\t\"example.net/heat\"\n\t\"example.net/heat/radiant\"\n)\n", nil},
		{
			"a library whose name only begins like a listed one", "oven/a.go", "package oven\nimport \"example.net/heater\"\n",
			[]string{"oven/a.go:2: oven may not import example.net/heater: the library is not listed for this room"},
		},
		{
			"cgo", "oven/a.go", "package oven\nimport \"C\"\n",
			[]string{"oven/a.go:2: oven may not import C: the library is not listed for this room"},
		},
		{"the world at the door", "door/a.go", "package door\nimport (\n\t\"net/http\"\n\t\"os\"\n)\n", nil},
		{
			"the world in a domain room", "oven/a.go", "package oven\nimport (\n\t\"io/fs\"\n\t\"net/http\"\n\t\"os\"\n\t\"log/slog\"\n\t\"database/sql\"\n)\n",
			[]string{
				"oven/a.go:4: oven may not import net/http: a domain room knows no wire, database, file system, chance or log",
				"oven/a.go:5: oven may not import os: a domain room knows no wire, database, file system, chance or log",
				"oven/a.go:6: oven may not import log/slog: a domain room knows no wire, database, file system, chance or log",
				"oven/a.go:7: oven may not import database/sql: a domain room knows no wire, database, file system, chance or log",
			},
		},
		{
			"the clock in a domain room", "oven/a.go", "package oven\nimport \"time\"\nvar start = time.Now\nvar limit = 3 * time.Minute\n",
			[]string{"oven/a.go:3: oven may not use time.Now: a domain room has no clock: take the time as an argument"},
		},
		{
			"the clock under another name", "oven/a.go", "package oven\nimport t \"time\"\nfunc age(b t.Time) t.Duration { return t.Since(b) }\n",
			[]string{"oven/a.go:3: oven may not use time.Since: a domain room has no clock: take the time as an argument"},
		},
		{"a variable that hides the clock", "oven/a.go", "package oven\nimport \"time\"\nvar _ time.Duration\nfunc f(time interface{ Now() int }) int { return time.Now() }\n", nil},
		{"the clock at the door", "door/a.go", "package door\nimport \"time\"\nvar start = time.Now()\n", nil},
		{
			"chance without a seed", "oven/a.go", "package oven\nimport \"math/rand/v2\"\nvar r = rand.New(rand.NewPCG(1, 2))\nvar n = rand.IntN(6)\n",
			[]string{"oven/a.go:4: oven may not use math/rand/v2.IntN: a domain room has no chance of its own: take a seeded source"},
		},
		{
			"the terminal in a domain room", "oven/a.go", "package oven\nimport \"fmt\"\nfunc f() string { fmt.Println(1); return fmt.Sprint(1) }\n",
			[]string{"oven/a.go:3: oven may not use fmt.Println: a domain room has no terminal: return the text"},
		},
		{"an init function", "door/a.go", "package door\n\nfunc init() {}\n", []string{"door/a.go:3: has an init function: let the caller decide when work is done"}},
		{"a method called init", "door/a.go", "package door\ntype d struct{}\nfunc (d) init() {}\n", nil},
		{"an import to embed files", "dough/a.go", "package dough\nimport _ \"embed\"\n", nil},
		{"an import of the zones of the world", "dough/a.go", "package dough\nimport _ \"time/tzdata\"\n", nil},
		{
			"an import for its side effects", "door/a.go", "package door\nimport _ \"image/png\"\n",
			[]string{"door/a.go:2: imports image/png for its side effects: call what you need"},
		},
		{
			"an import without a name", "door/a.go", "package door\nimport . \"strings\"\n",
			[]string{"door/a.go:2: imports strings into its own names: use a qualified import"},
		},
		{
			"writes to package variables", "door/a.go",
			"package door\nvar n int\nvar m = map[string]int{}\nvar s struct{ n int }\nfunc f() {\n\tn = 1\n\tn++\n\tm[\"a\"] = 1\n\ts.n = 1\n\tfor n = range 3 {\n\t}\n}\n",
			[]string{
				"door/a.go:6: writes to the package variable n: keep state in a value",
				"door/a.go:7: writes to the package variable n: keep state in a value",
				"door/a.go:8: writes to the package variable m: keep state in a value",
				"door/a.go:9: writes to the package variable s: keep state in a value",
				"door/a.go:10: writes to the package variable n: keep state in a value",
			},
		},
		{"writes to locals of the same name", "door/a.go", "package door\nvar n int\nfunc f(n int) {\n\tn = 1\n}\nfunc g() {\n\tn := 1\n\tn++\n}\n", nil},
		{
			"generated code", "door/a.go", "// Code generated by hand. DO NOT EDIT.\n\npackage door\nimport \"example.net/heat\"\nfunc init() {}\n",
			[]string{"door/a.go:4: door may not import example.net/heat: the library is not listed for this room"},
		},
		{"a file that says nothing", "door/types.go", "package door\n", []string{"door/types.go:1: file types.go says nothing: name it for the question it answers"}},
		{"a test file that says nothing", "door/helper_test.go", "package door\n", []string{"door/helper_test.go:1: file helper_test.go says nothing: name it for the question it answers"}},
		{"a folder that says nothing", "door/util/a.go", "package ring\n", []string{"door/util/a.go:1: folder util says nothing: name it for its subject"}},
		{"a package that says nothing", "door/a.go", "package common\n", []string{"door/a.go:1: package common says nothing: name it for its subject"}},
		{"a test imports what it likes", "oven/a_test.go", "package oven_test\nimport \"os\"\n", nil},
		{"folders that the go command ignores", "oven/testdata/util/a.go", "package util\nimport \"os\"\n", nil},
		{"a file that does not parse", "oven/a.go", "package oven\nfunc {\n", []string{"oven/a.go:1: does not parse: oven/a.go:2:6: expected 'IDENT', found '{'"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tree := fstest.MapFS{tt.file: {Data: []byte(tt.source)}}
			breaches, err := bakery().Check(tree)
			require.NoError(t, err)
			var got []string
			for _, b := range breaches {
				got = append(got, b.String())
			}
			assert.Equal(t, tt.want, got, "source:\n%s", tt.source)
		})
	}
}

func TestCheckSeesAVariableOfAnotherFile(t *testing.T) {
	tree := fstest.MapFS{
		"door/bell.go": {Data: []byte("package door\nvar rung int\n")},
		"door/hand.go": {Data: []byte("package door\nfunc ring() { rung++ }\n")},
	}
	breaches, err := bakery().Check(tree)
	require.NoError(t, err)
	want := []importlaw.Breach{{File: "door/hand.go", Line: 2, Message: "writes to the package variable rung: keep state in a value"}}
	assert.Equal(t, want, breaches)
}

func TestCheckSortsByFileAndLine(t *testing.T) {
	tree := fstest.MapFS{
		"oven/b.go": {Data: []byte("package oven\nimport \"os\"\n")},
		"oven/a.go": {Data: []byte("package oven\nfunc init() {}\nfunc init() {}\n")},
		"door/z.go": {Data: []byte("package door\nfunc init() {}\n")},
	}
	breaches, err := bakery().Check(tree)
	require.NoError(t, err)
	var places []string
	for _, b := range breaches {
		places = append(places, b.File)
	}
	assert.Equal(t, []string{"door/z.go", "oven/a.go", "oven/a.go", "oven/b.go"}, places)
}

func TestCheckReportsATreeItCannotRead(t *testing.T) {
	_, err := bakery().Check(brokenTree{})
	require.ErrorIs(t, err, errDamp)
}
