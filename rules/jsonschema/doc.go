// Package jsonschema says in JSON Schema, draft 2020-12, what the files of a rule
// folder look like, so that an editor completes them and marks slips while they are
// written: tables, worked cases and promises, with every fact, field and word of a
// schema of facts and results.
//
// An editor sees the form of a file; what the conditions mean, and whether rules
// answer, is for package rules and its checks. The documents are built from the
// schema alone, the same bytes every time. The package reads and writes no files.
package jsonschema
