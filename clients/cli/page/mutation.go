package page

import (
	"fmt"
	"io"
	"math"

	"github.com/glossladder/glossladder/rules/mutate"
)

// Mutation sets which small mistakes in the rules of some tables the worked cases and
// promises notice: counts by table and by kind, then every mistake that stays
// unnoticed, with the case that would catch it.
func Mutation(w io.Writer, report mutate.Report, tables []string, path func(file string) string, style Style) error {
	p := newPaper(style)
	var rows [][]span
	for _, t := range tables {
		rows = append(rows, tally(t, report.Of(t, "")))
	}
	columns := []string{"", "caught", "unnoticed", "score", "no mistake", "does not load"}
	columns[0] = "table"
	p.grid(0, columns, append(rows, tally("all", report.All())))
	p.gap()
	rows = nil
	for _, k := range mutate.Kinds() {
		rows = append(rows, tally(kindWords(k), report.Of("", k)))
	}
	columns[0] = "mistake"
	p.grid(0, columns, rows)
	for _, f := range report.Survivors() {
		p.survivor(&f, path)
	}
	p.gap()
	all := report.All()
	p.para(0, say(fmt.Sprintf("Cases and promises notice %d of %d small mistakes:", all.Caught, all.Caught+all.Survived)),
		in(strong, score(all)+"."), say(leftOut(all)))
	return p.writeTo(w)
}

// score is rounded down, so that 100 % is all of them.
func score(t mutate.Tally) string { return fmt.Sprintf("%.1f %%", math.Floor(t.Score()*10)/10) }

func leftOut(t mutate.Tally) string {
	text := fmt.Sprintf("Not counted: %s proved to change no answer", plural(t.Same, "edit", "edits"))
	if t.Refused > 0 {
		text += fmt.Sprintf(", and %d that would not load", t.Refused)
	}
	return text + "."
}

func tally(name string, t mutate.Tally) []span {
	unnoticed := in(good, "0")
	if t.Survived > 0 {
		unnoticed = in(wary, fmt.Sprint(t.Survived))
	}
	return []span{
		in(strong, name), say(fmt.Sprint(t.Caught)), unnoticed, say(score(t)), say(fmt.Sprint(t.Same)), say(fmt.Sprint(t.Refused)),
	}
}

func kindWords(k mutate.Kind) string {
	return map[mutate.Kind]string{
		mutate.Bound: "a bound moved", mutate.Clause: "a clause dropped", mutate.Order: "two rules swapped",
		mutate.Result: "a result swapped", mutate.Rule: "a rule deleted",
	}[k]
}

func (p *paper) survivor(f *mutate.Finding, path func(string) string) {
	p.gap()
	m := &f.Mutant
	fmt.Fprintf(&p.out, "%s:%d:%d: %s\n", path(m.File), m.Line, m.Col, p.colored(strong, m.Change()))
	switch {
	case f.Undecided:
		p.para(4, in(faint, "Whether any input is answered otherwise is not decided, so it counts as a mistake."))
	case f.Case == nil:
		p.para(4, in(faint, "It shows only where rules hold together that must not, which no case can expect: rules check names them."))
	default:
		p.paste(*f.Case)
	}
}
