package page

import (
	"fmt"
	"io"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

// Coverage sets what worked cases cover, table by table, and below it every bound that
// they do not test on both sides, with the cases that would. Path makes the name of a
// rule file one that an editor can open.
func Coverage(w io.Writer, tables []cases.TableCoverage, schema *rules.Schema, path func(file string) string, style Style) error {
	p := newPaper(style)
	var rows [][]span
	for _, t := range append(tables, cases.Total(tables)) {
		name := t.Table
		if name == "" {
			name = "all"
		}
		rows = append(rows, []span{
			in(strong, name), say(fmt.Sprint(t.Cases)), say(fmt.Sprint(t.Rules)),
			share(t.Matched, t.Rules), share(t.Won, t.Rules), share(t.Missed, t.Rules), share(t.Tested, t.Bounds),
		})
	}
	p.grid(0, []string{"table", "cases", "rules", "matched", "won", "just missed", "bounds tested on both sides"}, rows)
	for _, t := range tables {
		for i := range t.Untested {
			p.untested(&t.Untested[i], schema, path)
		}
	}
	return p.writeTo(w)
}

// share is a part of a whole, marked when it is not all.
func share(part, whole int) span {
	if part == whole {
		return in(good, fmt.Sprintf("all %d", whole))
	}
	return in(wary, fmt.Sprintf("%d of %d", part, whole))
}

// untested tells one bound, and the cases that would test it.
func (p *paper) untested(b *cases.Bound, schema *rules.Schema, path func(string) string) {
	p.gap()
	side := "on either side"
	switch {
	case b.Inside != "":
		side = "on the outer side"
	case b.Outside != "":
		side = "on the inner side"
	}
	fmt.Fprintf(&p.out, "%s:%d: %s: %s %s holds, %s does not: no case %s\n",
		path(b.File), b.Line, p.colored(strong, b.Rule), schema.Fact(b.Fact).Label, b.Inner, b.Outer, side)
	for _, s := range b.Suggest {
		p.paste(s)
	}
}

// paste sets a case as a person can copy it.
func (p *paper) paste(s cases.Suggestion) {
	for line := range strings.Lines(s.YAML()) {
		p.out.WriteString(p.colored(faint, strings.TrimSuffix(line, "\n")) + "\n")
	}
}

// CoverageLine is the whole coverage in one line.
func CoverageLine(tables []cases.TableCoverage) string {
	t := cases.Total(tables)
	count := func(n int) string {
		if n == t.Rules {
			return "all"
		}
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("Of %d rules %s matched, %s won, %s just missed; %d of %d bounds tested on both sides.",
		t.Rules, count(t.Matched), count(t.Won), count(t.Missed), t.Tested, t.Bounds)
}
