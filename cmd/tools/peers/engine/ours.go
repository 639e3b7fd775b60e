package engine

import (
	"fmt"
	"strings"
	"testing/fstest"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
	"github.com/glossladder/glossladder/rules"
)

// fileBytes is how much goes into one rule file; a file may have 1 MiB. Rules that do not fit become a second table,
// which is asked when the first has no answer.
const fileBytes = 1_000_000

func ours() Maker {
	return Maker{
		Name: "Glossladder",
		How: "`Table.First` on a set that `rules.Load` read, whole files with ids, results and reasons; words are words. Explanation: " +
			"`Table.Decide`, then `Table.Why` in words (the winner with every condition and its margin, up to 16 rules that nearly held); " +
			"as data: `Decide` alone",
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			b, err := loadOurs(rs, at)
			if err != nil {
				return nil, err
			}
			return Engine{Ready: b.ready, Fresh: b.fresh, Explained: b.words, AsData: b.data}, nil
		},
	}
}

type ourTables struct {
	parts   []ourPart
	points  []table.Point
	inputs  []*rules.Input
	binding *rules.Input
	scratch rules.Scratch
	out     rules.Decision
}

// ourPart is one table and the place of its first rule in the whole.
type ourPart struct {
	table *rules.Table
	from  int
}

var sizes = [table.Words]string{"tiny", "small", "middling", "large", "huge"}

func loadOurs(rs []table.Rule, at []table.Point) (*ourTables, error) {
	files, from := ourFiles(rs)
	schema, err := ourSchema(len(from))
	if err != nil {
		return nil, fmt.Errorf("make the schema: %w", err)
	}
	set, err := rules.Load(files, schema)
	if err != nil {
		return nil, fmt.Errorf("load the rule files: %w", err)
	}
	b := &ourTables{points: at, binding: schema.NewInput()}
	for i, t := range set.Tables() {
		b.parts = append(b.parts, ourPart{t, from[i]})
	}
	for _, p := range at {
		in := schema.NewInput()
		if err := bindOurs(in, p); err != nil {
			return nil, err
		}
		b.inputs = append(b.inputs, in)
	}
	return b, nil
}

func (b *ourTables) ready(i int) (int, error) { return b.first(b.inputs[i]), nil }

func (b *ourTables) fresh(i int) (int, error) {
	if err := bindOurs(b.binding, b.points[i]); err != nil {
		return 0, err
	}
	return b.first(b.binding), nil
}

func (b *ourTables) first(in *rules.Input) int {
	for _, p := range b.parts {
		if r := p.table.First(in, &b.scratch); r >= 0 {
			return p.from + r
		}
	}
	return table.None
}

func (b *ourTables) data(i int) (int, error) { return b.explained(i, false) }

func (b *ourTables) words(i int) (int, error) { return b.explained(i, true) }

func (b *ourTables) explained(i int, inWords bool) (int, error) {
	in := b.inputs[i]
	for _, p := range b.parts {
		p.table.Decide(in, &b.out)
		if inWords && p.table.Why(in, &b.out).String() == "" {
			return 0, fmt.Errorf("point %d has no explanation", i)
		}
		if b.out.Outcome == rules.Answered {
			return p.from + int(b.out.Winners[0]), nil
		}
	}
	return table.None, nil
}

func bindOurs(in *rules.Input, p table.Point) error {
	for f, v := range p {
		id := rules.FactID(f)
		var err error
		switch {
		case f >= table.FirstFlag:
			err = in.SetFlag(id, v == 1)
		case f >= table.FirstWord:
			err = in.SetWord(id, sizes[int(v)])
		default:
			err = in.SetNumber(id, v)
		}
		if err != nil {
			return fmt.Errorf("bind fact %d: %w", f, err)
		}
	}
	return nil
}

func ourSchema(tables int) (*rules.Schema, error) {
	var facts []rules.Fact
	for f := range table.Facts {
		fact := rules.Fact{Name: factName(f), Meaning: "generated"}
		switch {
		case f >= table.FirstFlag:
			fact.Kind = rules.Flag
		case f >= table.FirstWord:
			fact.Kind, fact.Words, fact.Ordered = rules.Word, sizes[:], f%2 == 0
		default:
			fact.Kind, fact.Max, fact.Step = rules.Number, table.MaxNumber, 0.5
		}
		facts = append(facts, fact)
	}
	var results []rules.ResultType
	for i := range tables {
		results = append(results, rules.ResultType{
			Table: tableName(i), Meaning: "generated",
			Fields: []rules.Field{{Name: "word", Kind: rules.Word, Words: []string{"a", "b", "c", "d"}, Required: true}},
		})
	}
	return rules.NewSchema(facts, results)
}

func tableName(i int) string { return fmt.Sprintf("t%d", i) }

// ourFiles writes the rules as rule files, and tells where in the whole each file begins.
func ourFiles(rs []table.Rule) (files fstest.MapFS, from []int) {
	files = fstest.MapFS{}
	var b strings.Builder
	begin := func(i int) {
		from = append(from, i)
		b.Reset()
		fmt.Fprintf(&b, "table: %s\nhit: first\nrules:\n", tableName(len(from)-1))
	}
	end := func() { files[tableName(len(from)-1)+".yaml"] = &fstest.MapFile{Data: []byte(b.String())} }
	begin(0)
	for i, r := range rs {
		if b.Len() > fileBytes {
			end()
			begin(i)
		}
		fmt.Fprintf(&b, "  - {id: r%d, when: '%s', then: {word: %c}, because: generated}\n", i, join(r, " and ", ourClause), 'a'+i%4)
	}
	end()
	return files, from
}

func ourClause(c table.Clause) string {
	name := factName(c.Fact)
	switch {
	case c.Fact >= table.FirstFlag:
		return flag(c, name, "not ")
	case c.Fact >= table.FirstWord:
		return comparisons(c, name, " and ", func(v float64) string { return fmt.Sprintf("%q", sizes[int(v)]) })
	case c.Op == table.Between:
		return fmt.Sprintf("%s in %s..%s", name, literal(c.Lo), literal(c.Hi))
	}
	return comparisons(c, name, " and ", literal)
}
