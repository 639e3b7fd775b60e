// Package strictyaml reads a small, strict part of YAML and remembers where everything stands, so that whoever wrote
// the file can be told the line and the column of a mistake.
//
// It owns: what a file may look like at all (plain maps, lists and scalars in one UTF-8 document), positions, decimal
// numbers, and the search for the word that was probably meant. It leaves the meaning of keys and values to its callers.
//
// Refused, each with its position: aliases, anchors, tags, merge keys, directives, keys that are not plain text, a key
// given twice, values left out or null, a second document, tabs in the indentation, control and line-separator
// characters, text that is not UTF-8, files over [MaxBytes], nesting over [MaxDepth].
//
// It is the only package that imports the YAML parser, and it imports no other package of the module.
package strictyaml
