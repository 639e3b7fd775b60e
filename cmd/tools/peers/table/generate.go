package table

import "math/rand/v2"

// Shape says how many facts the rules of a table name.
type Shape struct {
	Name        string
	Least, Most int
	// Empty makes every second point one that no rule lets in; otherwise it lies anywhere.
	Empty bool
}

// Shapes are the two kinds of table that people write: a few wide rules' worth of facts, or nearly all of them.
func Shapes() []Shape {
	return []Shape{
		{Name: "dense", Least: 4, Most: 8},
		{Name: "sparse", Least: 9, Most: 13, Empty: true},
	}
}

// Generate makes n rules and the points to decide. The same arguments give the same table. Every first point of a pair
// lies inside some rule; the shape says where the other lies.
func Generate(s Shape, n, points int) ([]Rule, []Point) {
	r := rand.New(rand.NewPCG(1, uint64(n)))
	rules := make([]Rule, n)
	inside := make([]Point, n)
	for i := range rules {
		inside[i] = anywhere(r)
		rules[i] = around(r, inside[i], s.Least+r.IntN(s.Most-s.Least+1))
	}
	at := make([]Point, points)
	for i := range at {
		at[i] = anywhere(r)
		if i%2 == 0 {
			at[i] = inside[r.IntN(n)]
			continue
		}
		for s.Empty && Decide(rules, at[i]) != None {
			at[i] = anywhere(r)
		}
	}
	return rules, at
}

// around is a rule that names some facts and lets p in.
func around(r *rand.Rand, p Point, named int) Rule {
	rule := make(Rule, 0, named)
	for _, f := range r.Perm(Facts)[:named] {
		rule = append(rule, clause(r, f, p[f]))
	}
	return rule
}

func clause(r *rand.Rand, f int, v float64) Clause {
	switch {
	case f >= FirstFlag:
		return Clause{Fact: f, Op: Is, Lo: v}
	case f >= FirstWord && f%2 == 0 && r.IntN(2) == 0:
		return Clause{Fact: f, Op: AtMost, Hi: v}
	case f >= FirstWord:
		return Clause{Fact: f, Op: Is, Lo: v}
	}
	c := Clause{Fact: f, Op: [...]Op{AtLeast, AtMost, Between}[r.IntN(3)]}
	lo, hi := max(0, v-float64(r.IntN(70))), min(MaxNumber, v+float64(r.IntN(70)))
	if c.Op != AtMost {
		c.Lo = lo
	}
	if c.Op != AtLeast {
		c.Hi = hi
	}
	return c
}

func anywhere(r *rand.Rand) Point {
	var p Point
	for f := range p {
		switch {
		case f >= FirstFlag:
			p[f] = float64(r.IntN(2))
		case f >= FirstWord:
			p[f] = float64(r.IntN(Words))
		default:
			p[f] = float64(r.IntN(MaxNumber + 1))
		}
	}
	return p
}
