package promise

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// File is the name of the file of promises in a rule folder.
const File = "promises.yaml"

// Kind says what a promise is about.
type Kind string

// The kinds, as the file writes them.
const (
	Never     Kind = "never"     // the condition is true for no input
	Always    Kind = "always"    // the condition is true for every input
	Monotone  Kind = "monotone"  // as a fact rises, a result does not fall, not rise, or is kept
	Total     Kind = "total"     // the table answers every input
	Reachable Kind = "reachable" // the condition is true for some input
	Step      Kind = "step"      // one notch of a fact moves a result so many places at most
	Blind     Kind = "blind"     // no rule of some tables names a fact of a group
)

var kinds = []Kind{Never, Always, Monotone, Total, Reachable, Step, Blind}

// Promise is one promise of a file.
type Promise struct {
	ID, Because string
	Safety      bool // a set that breaks it does not load
	Kind        Kind
	Says        string // the condition, or the table of a total promise

	// Of a monotone promise: the fact that rises, and one of the others: the result
	// that never falls or never rises, or a condition on one table's results that a
	// rule keeps meeting.
	Rises, NeverFalls, NeverRises, Keeps string

	// Of a step promise, whose fact is Rises: the result that moves, and how many
	// places of its order one notch of the fact moves it at most, up or down.
	Moves  string
	AtMost int

	// Of a blind promise: the tables, and the group of facts that none of their rules names.
	Tables []string
	To     string

	File      string
	Line, Col int
	at        *strictyaml.Node // of what it says
}

// Parse reads a file of promises, or gives everything that is wrong with it as
// [rules.Problems].
func Parse(file string, src []byte) ([]Promise, error) {
	root, ps := strictyaml.Parse(file, src)
	r := reader{}
	for _, p := range ps {
		r.complain(p.File, p.Pos, p.Message, p.Hint)
	}
	var out []Promise
	if root != nil {
		top := r.keys(root, "a file of promises", "promises")
		if list := top["promises"]; list != nil {
			out = r.promises(list)
		} else if len(r.problems) == 0 {
			r.bad(root, "promises is missing", "")
		}
	}
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return out, nil
}

type reader struct{ problems rules.Problems }

func (r *reader) complain(file string, pos strictyaml.Pos, message, hint string) {
	r.problems = append(r.problems, rules.Problem{File: file, Line: pos.Line, Col: pos.Col, Message: message, Hint: hint})
}

func (r *reader) bad(n *strictyaml.Node, message, hint string) {
	r.complain(n.File(), n.Pos(), message, hint)
}

// keys takes a map apart; keys that do not belong are complained about.
func (r *reader) keys(n *strictyaml.Node, what string, allowed ...string) map[string]*strictyaml.Node {
	out := map[string]*strictyaml.Node{}
	if n.Kind() != strictyaml.Map {
		r.bad(n, what+" is a map, not "+n.Kind().String(), "its keys are "+strings.Join(allowed, ", "))
		return out
	}
	for _, e := range n.Entries() {
		if !slices.Contains(allowed, e.Key) {
			hint := "its keys are " + strings.Join(allowed, ", ")
			if near := strictyaml.Nearest(e.Key, allowed); near != "" {
				hint = "did you mean " + near + "?"
			}
			r.complain(n.File(), e.KeyPos, what+" has no key "+e.Key, hint)
			continue
		}
		out[e.Key] = e.Value
	}
	return out
}

func (r *reader) text(n *strictyaml.Node, what string) string {
	switch {
	case n == nil || n.Kind() == strictyaml.Refused:
		return ""
	case n.Kind() != strictyaml.Scalar || strings.TrimSpace(n.Text()) == "":
		r.bad(n, what+" is text", "")
		return ""
	}
	return n.Text()
}

func (r *reader) promises(list *strictyaml.Node) []Promise {
	if list.Kind() != strictyaml.List {
		r.bad(list, "promises are a list", "begin each with a dash")
		return nil
	}
	var out []Promise
	for _, n := range list.Items() {
		p := r.promise(n)
		if slices.ContainsFunc(out, func(o Promise) bool { return o.ID == p.ID && p.ID != "" }) {
			r.bad(n, "there are two promises "+p.ID, "")
		}
		out = append(out, p)
	}
	return out
}

func (r *reader) promise(n *strictyaml.Node) Promise {
	p := Promise{File: n.File(), Line: n.Pos().Line, Col: n.Pos().Col}
	before := len(r.problems)
	keys := r.keys(n, "a promise", "id", "because", "safety", "never", "always", "monotone", "total", "reachable", "step", "blind")
	for _, must := range []string{"id", "because"} {
		if keys[must] == nil && len(r.problems) == before {
			r.bad(n, "a promise needs "+must, "")
		}
	}
	p.ID, p.Because = r.text(keys["id"], "id"), r.text(keys["because"], "because")
	if s := keys["safety"]; s != nil {
		yes, err := s.Bool()
		if err != nil {
			r.bad(s, "safety: "+err.Error(), "")
		}
		p.Safety = yes
	}
	for _, k := range kinds {
		says := keys[string(k)]
		switch {
		case says == nil:
			continue
		case p.Kind != "":
			r.bad(says, "a promise says one thing, and this one says "+string(p.Kind)+" already", "make two promises of it")
			continue
		}
		p.Kind, p.at = k, says
		switch k {
		case Monotone:
			r.monotone(says, &p)
		case Step:
			r.step(says, &p)
		case Blind:
			r.blind(says, &p)
		default:
			p.Says = r.text(says, string(k))
		}
	}
	if p.Kind == "" && len(r.problems) == before {
		r.bad(n, "a promise says never, always, monotone, total, reachable, step or blind", "")
	}
	return p
}

func (r *reader) monotone(n *strictyaml.Node, p *Promise) {
	before := len(r.problems)
	keys := r.keys(n, "monotone", "rises", "never-falls", "never-rises", "keeps")
	p.Rises = r.text(keys["rises"], "rises")
	p.NeverFalls, p.NeverRises = r.text(keys["never-falls"], "never-falls"), r.text(keys["never-rises"], "never-rises")
	p.Keeps = r.text(keys["keeps"], "keeps")
	if len(r.problems) == before && (p.Rises == "" || len(keys) != 2) {
		r.bad(n, "monotone needs rises and one of never-falls, never-rises and keeps", "")
	}
}

// maxPlaces is more than any result has places.
const maxPlaces = 1 << 20

func (r *reader) step(n *strictyaml.Node, p *Promise) {
	before := len(r.problems)
	keys := r.keys(n, "step", "rises", "moves", "at-most")
	p.Rises, p.Moves = r.text(keys["rises"], "rises"), r.text(keys["moves"], "moves")
	if len(r.problems) == before && (p.Rises == "" || p.Moves == "" || keys["at-most"] == nil) {
		r.bad(n, "step needs rises, moves and at-most", "write it like {rises: group.fact, moves: table.field, at-most: 1}")
		return
	}
	if keys["at-most"] == nil {
		return
	}
	places, err := keys["at-most"].Number()
	switch {
	case err != nil:
		r.bad(keys["at-most"], "at-most: "+err.Error(), "")
	case places != math.Trunc(places) || places < 0 || places > maxPlaces:
		r.bad(keys["at-most"], fmt.Sprintf("at-most is %v, it is a whole number of places from 0", places), "")
	}
	p.AtMost = int(places)
}
