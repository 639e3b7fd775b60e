package mutate

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// places finds the conditions and lets of a table in its file.
type places struct {
	lets  map[string]*strictyaml.Node
	rules []*strictyaml.Node // the conditions, along the table's rules
}

// placesOf reads the file again, which loaded before.
func placesOf(set *rules.Set, t *rules.Table) places {
	out := places{lets: map[string]*strictyaml.Node{}}
	src, _ := set.Source(t.File())
	root, _ := strictyaml.Parse(t.File(), src)
	for _, e := range root.Entries() {
		switch e.Key {
		case "let":
			for _, l := range e.Value.Entries() {
				out.lets[l.Key] = l.Value
			}
		case "rules":
			for _, r := range e.Value.Items() {
				out.rules = append(out.rules, entry(r, "when"))
			}
		}
	}
	return out
}

func entry(n *strictyaml.Node, key string) *strictyaml.Node {
	for _, e := range n.Entries() {
		if e.Key == key {
			return e.Value
		}
	}
	return nil
}
