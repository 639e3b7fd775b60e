package check

import (
	"fmt"
	"strconv"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// constants looks for numbers that the fact they are compared with can never have:
// outside its bounds, or between two of its steps.
func (c *checker) constants() {
	compiler := cond.NewCompiler(space.New(c.geometry.Axes))
	var file *strictyaml.Node
	text := func(at func(*strictyaml.Node) *strictyaml.Node) *strictyaml.Node {
		if file == nil && c.source != nil { // read again only when there is something to tell
			file, _ = strictyaml.Parse(c.t.File(), c.source)
		}
		return at(file)
	}
	for _, let := range c.t.Lets() {
		if c.strays(compiler.Constants(let.Formula)) {
			node := text(func(f *strictyaml.Node) *strictyaml.Node { return entry(entry(f, "let"), let.Name) })
			c.tellStrays(compiler, node, let.Formula, Place{File: c.t.File()}, "let."+let.Name)
		}
		compiler.Let(let.Name, let.Formula)
	}
	for i := range c.t.Rules() {
		rule := &c.t.Rules()[i]
		if c.strays(compiler.Constants(rule.When)) {
			node := text(func(f *strictyaml.Node) *strictyaml.Node { return entry(item(entry(f, "rules"), i), "when") })
			c.tellStrays(compiler, node, rule.When, c.place(int32(i)), rule.ID)
		}
	}
}

// strays says whether some constant lies beside its fact's values.
func (c *checker) strays(all []cond.Constant) bool {
	for _, k := range all {
		if _, on := c.geometry.Axes[k.Axis].Grid.Code(k.Value); !on {
			return true
		}
	}
	return false
}

// tellStrays tells of the constants of one text that lie beside their fact's values.
// A nil node stands for a file that is not at hand.
func (c *checker) tellStrays(compiler *cond.Compiler, node *strictyaml.Node, source string, p Place, subject string) {
	if node.Kind() == strictyaml.Scalar {
		source = node.Text()
	}
	for _, k := range compiler.Constants(source) {
		code, on := c.geometry.Axes[k.Axis].Grid.Code(k.Value)
		if on {
			continue
		}
		at := p
		if node.Kind() == strictyaml.Scalar {
			pos := node.PosOf(k.At)
			at.Line, at.Col = pos.Line, pos.Col
		}
		f := c.stray(k, code)
		f.Places, f.Subject = []Place{at}, subject
		c.add(f)
	}
}

// stray says what is wrong with a number, and what says the same with a value of the fact.
func (c *checker) stray(k cond.Constant, near int32) Finding {
	a := &c.geometry.Axes[k.Axis]
	fact := c.t.Schema().Fact(rules.FactID(k.Axis))
	unit := ""
	if fact.Unit != "" {
		unit = " " + fact.Unit
	}
	says := fmt.Sprintf("%s %s %s", a.Name, k.Cmp, number(k.Value))
	if k.Value < fact.Min || k.Value > fact.Max {
		f := Finding{
			Code: OutOfBounds, Level: Warning,
			Message: fmt.Sprintf("%s: %s goes from %s to %s%s", says, fact.Label, number(fact.Min), number(fact.Max), unit),
			Effect:  "where it is known, this part is never true", Mend: "take a number within these bounds",
		}
		if outsideHolds(k.Cmp, k.Value > fact.Max) {
			f.Effect, f.Mend = "where it is known, this part is always true", "take a number within these bounds, or known("+a.Name+") if that is meant"
		}
		return f
	}
	below, above := a.Value(near), a.Value(near)
	if below > k.Value {
		below = a.Value(near - 1)
	} else {
		above = a.Value(near + 1)
	}
	comes := "it comes in steps of "
	if fact.Class == rules.Measurable {
		comes = "it is read in steps of "
	}
	f := Finding{Code: FinerThan, Level: Warning, Message: fmt.Sprintf("%s: %s%s%s", says, comes, number(fact.Step), unit)}
	switch k.Cmp {
	case "<", "<=":
		f.Effect, f.Mend = "it says the same as "+a.Name+" <= "+number(below), "write "+a.Name+" <= "+number(below)
	case ">", ">=":
		f.Effect, f.Mend = "it says the same as "+a.Name+" >= "+number(above), "write "+a.Name+" >= "+number(above)
	default:
		f.Effect = map[string]string{"==": "where it is known, this part is never true", "!=": "where it is known, this part is always true"}[k.Cmp]
		f.Mend = "write " + number(below) + " or " + number(above)
	}
	return f
}

// outsideHolds says whether every value of a fact compares so with a number above all
// of them, or below.
func outsideHolds(cmp string, above bool) bool {
	switch cmp {
	case "<", "<=":
		return above
	case ">", ">=":
		return !above
	}
	return cmp == "!="
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func entry(n *strictyaml.Node, key string) *strictyaml.Node {
	for _, e := range n.Entries() {
		if e.Key == key {
			return e.Value
		}
	}
	return nil
}

func item(n *strictyaml.Node, at int) *strictyaml.Node {
	if items := n.Items(); at < len(items) {
		return items[at]
	}
	return nil
}
