package importlaw

import (
	"path"
	"slices"
	"strings"
)

// nameless lists the words that say where code was put and not what it is about.
var nameless = [...]string{"util", "common", "type", "helper", "manager", "base", "model"}

// checkFolderName judges the name of a folder with Go files, of the folders above it, and of the files, tests included.
func checkFolderName(folder string, names []string) []Breach {
	var breaches []Breach
	for element := range strings.SplitSeq(folder, "/") {
		if saysNothing(element) {
			breaches = append(breaches, Breach{path.Join(folder, names[0]), 1, "folder " + element + " says nothing: name it for its subject"})
		}
	}
	for _, name := range names {
		stem := strings.TrimSuffix(strings.TrimSuffix(name, ".go"), "_test")
		if saysNothing(stem) {
			breaches = append(breaches, Breach{path.Join(folder, name), 1, "file " + name + " says nothing: name it for the question it answers"})
		}
	}
	return breaches
}

// saysNothing reports whether name is one of the nameless words, alone or in the plural.
func saysNothing(name string) bool {
	name = strings.ToLower(name)
	return slices.Contains(nameless[:], name) || slices.Contains(nameless[:], strings.TrimSuffix(name, "s"))
}
