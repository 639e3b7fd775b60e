package engine

import (
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

// Way is how an engine is asked.
type Way string

// The ways.
const (
	// Ready asks with everything prepared that the engine lets its host prepare: the input stands in the engine's own form.
	Ready Way = "ready"
	// Fresh starts from the plain point, as a host does that just got it, and so has the cost of binding in it.
	Fresh Way = "fresh"
	// Explained asks for the answer and for whatever the engine has to say about it.
	Explained Way = "explained"
	// AsData is our explanation before it is put into words.
	AsData Way = "explained as data"
)

// Ways lists them all.
func Ways() []Way { return []Way{Ready, Fresh, Explained, AsData} }

// Ask decides the point with a number and gives the place of the rule that answers, or table.None.
type Ask func(point int) (int, error)

// Engine is one engine with a table and points loaded, by the ways in which it can be asked. What only one way needs may
// be prepared at its first call. It belongs to one goroutine.
type Engine map[Way]Ask

// Maker builds engines of one kind.
type Maker struct {
	Name string
	// How tells how the table is written and asked.
	How string
	// Reference marks what is no engine that people use.
	Reference bool
	Make      func(rules []table.Rule, at []table.Point) (Engine, error)
}

// Makers lists the engines that are written in Go, ours first.
func Makers() []Maker {
	return []Maker{ours(), plainScan(), exprScan(), celScan(), opaChain(), opaSet(), grule()}
}

// literal writes a number as every language here reads it, a whole one without a point.
func literal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// comparisons writes a clause on a number by one or two comparisons; and stands between them.
func comparisons(c table.Clause, name, and string, lit func(float64) string) string {
	switch c.Op {
	case table.AtLeast:
		return name + " >= " + lit(c.Lo)
	case table.AtMost:
		return name + " <= " + lit(c.Hi)
	case table.Between:
		return name + " >= " + lit(c.Lo) + and + name + " <= " + lit(c.Hi)
	}
	return name + " == " + lit(c.Lo)
}

// flag writes a clause on a flag as its bare name, with not before it where the flag must be false.
func flag(c table.Clause, name, not string) string {
	if c.Lo == 1 {
		return name
	}
	return not + name
}

// join writes a rule; and stands between its clauses.
func join(r table.Rule, and string, write func(table.Clause) string) string {
	parts := make([]string, len(r))
	for i, c := range r {
		parts[i] = write(c)
	}
	return strings.Join(parts, and)
}

func factName(f int) string { return "f" + strconv.Itoa(f) }
