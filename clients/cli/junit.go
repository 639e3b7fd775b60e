package cli

import (
	"encoding/xml"
	"fmt"
	"io"

	"github.com/glossladder/glossladder/rules/cases"
)

// The layout that test runners and build servers read: one suite a table, one test a case.
type junitReport struct {
	XMLName  xml.Name     `xml:"testsuites"`
	Name     string       `xml:"name,attr"`
	Tests    int          `xml:"tests,attr"`
	Failures int          `xml:"failures,attr"`
	Suites   []junitSuite `xml:"testsuite"`
}

type junitSuite struct {
	Name     string      `xml:"name,attr"`
	Tests    int         `xml:"tests,attr"`
	Failures int         `xml:"failures,attr"`
	Cases    []junitCase `xml:"testcase"`
}

type junitCase struct {
	Name    string        `xml:"name,attr"`
	Class   string        `xml:"classname,attr"`
	File    string        `xml:"file,attr"`
	Line    int           `xml:"line,attr"`
	Failure *junitFailure `xml:"failure,omitempty"`
}

type junitFailure struct {
	Message string `xml:"message,attr"`
	Text    string `xml:",chardata"`
}

// writeJUnit writes how the cases came out, table by table in the order of the cases.
func writeJUnit(out io.Writer, results []cases.Result) error {
	report := junitReport{Name: "worked cases"}
	for _, result := range results {
		last := len(report.Suites) - 1
		if last < 0 || report.Suites[last].Name != result.Case.Table {
			report.Suites = append(report.Suites, junitSuite{Name: result.Case.Table})
			last++
		}
		suite := &report.Suites[last]
		one := junitCase{Name: result.Case.Name, Class: result.Case.Table, File: result.Case.File, Line: result.Case.Line}
		if !result.Passed() {
			one.Failure = &junitFailure{Message: result.Failures[0], Text: result.String()}
			suite.Failures++
			report.Failures++
		}
		suite.Cases = append(suite.Cases, one)
		suite.Tests++
		report.Tests++
	}
	text, err := xml.MarshalIndent(report, "", "  ")
	if err != nil {
		return fmt.Errorf("write the cases as JUnit: %w", err)
	}
	_, err = fmt.Fprintf(out, "%s%s\n", xml.Header, text)
	return err
}
