package strictyaml

import "testing"

// FuzzFollow: the text of every scalar is read again from the file exactly as the parser read it, so PosOf is exact.
func FuzzFollow(f *testing.F) {
	for _, seed := range []string{
		"a: |2-\n   x\n\n  y\n", "a: >+\n  x\n   y\n\n\n", "a: \"x\\u00e9 \\\n  y\"\n", "a: 'it''s\n  two\n\n  three'\n", "a: b c\n  d\n\n  e\n", "a: |", "a: |\n  x", "a: >\n\n\n",
		"x: >\n\n  a\n  b\n \n\n   c\n", "a:\n - |4\n      x\n", "--- |\nx\n", "\"a\\\n\n\n b \\\n c\"", "a: |\n  \t\n \n", "'a \n b'", "a: >-\n  \n   b\n   \n  c", "|\n\n   ", ">\n a\n\n  b\n c\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, src string) {
		node, problems := Parse("f.yaml", []byte(src))
		if node == nil || len(problems) > 0 {
			return
		}
		var walk func(n *Node)
		walk = func(n *Node) {
			if n.kind == Scalar {
				read, ok := n.respell()
				if !ok || len(read.at) != len(read.text) {
					t.Errorf("at %s the file gives %q, the parser %q", n.pos, string(read.text), n.text)
				}
			}
			for _, e := range n.entries {
				walk(e.Value)
			}
			for _, item := range n.items {
				walk(item)
			}
		}
		walk(node)
	})
}
