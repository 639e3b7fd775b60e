package check

import (
	"regexp"
	"slices"
	"strings"
)

// acceptance is a line of a table's file that says that a finding is meant:
//
//	# accept unused-word speed high: high speed forgives nothing at edges
type acceptance struct {
	code, subject, reason string
	line                  int
	used                  bool
}

var acceptLine = regexp.MustCompile(`^\s*# accept ([a-z-]+) ([^:]+): (\S.*)$`)

// acceptances are the lines of a file that accept findings. A comment that only
// begins with the same word names no code and is none.
func acceptances(src []byte) []acceptance {
	var out []acceptance
	for i, line := range strings.Split(string(src), "\n") {
		m := acceptLine.FindStringSubmatch(strings.TrimRight(line, "\r "))
		if len(m) > 0 && slices.Contains(Codes(), Code(m[1])) {
			out = append(out, acceptance{code: m[1], subject: m[2], reason: m[3], line: i + 1})
		}
	}
	return out
}

// accept marks the findings that the file accepts. Errors cannot be accepted, and an
// acceptance of something that is not there is told: the rule may have changed.
func (c *checker) accept() {
	all := acceptances(c.source)
	for i := range c.found {
		f := &c.found[i]
		if f.Level == Error {
			continue
		}
		for k := range all {
			if a := &all[k]; a.code == string(f.Code) && a.subject == f.Subject {
				f.Accepted, a.used = a.reason, true
			}
		}
		if f.Accepted != "" {
			c.report.Accepted++
		}
	}
	for _, a := range all {
		if !a.used {
			c.add(Finding{
				Code: UnusedAccept, Level: Advice, Places: []Place{{File: c.t.File(), Line: a.line, Col: 1}}, Subject: a.code + " " + a.subject,
				Message: "this accepts " + a.code + " of " + a.subject + ", which is not there to accept",
				Effect:  "none", Mend: "delete the line, or mend what it names; an error is mended, not accepted",
			})
		}
	}
}
