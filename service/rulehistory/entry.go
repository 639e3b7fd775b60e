package rulehistory

import (
	"errors"
	"fmt"
	"time"
)

// Way is how a set came into force.
type Way string

// The ways. They stand in files and do not change.
const (
	Start    Way = "start"     // the service started on it
	Reload   Way = "reload"    // an edit of the folder was taken up
	Update   Way = "update"    // a call edited the folder
	LastGood Way = "last-good" // the folder did not load at a start, and this is the last set of it that did
)

// Entry is one time that a set came into force.
type Entry struct {
	Number  int       `json:"-"` // its place in the history, from 1
	RuleSet string    `json:"rule_set"`
	Folder  string    `json:"folder,omitempty"` // absolute; empty: the rules as shipped
	Way     Way       `json:"way"`
	At      time.Time `json:"at"`
	// Changed are the files that differ from the set of the same folder before it. Empty: none, or there was none before.
	Changed []string `json:"changed,omitempty"`
}

// ErrAmbiguous says that several sets begin with the characters given.
var ErrAmbiguous = errors.New("several rule sets begin with these characters; give more of them")

// NoSetError says that the history has no such set.
type NoSetError struct{ RuleSet string }

func (e *NoSetError) Error() string {
	return fmt.Sprintf("the history has no rule set %s; list the history to see which it has", e.RuleSet)
}

// DamagedError says that the files of a set are not those that were kept.
type DamagedError struct{ RuleSet string }

func (e *DamagedError) Error() string {
	return fmt.Sprintf("the files kept of rule set %s have been changed or lost since; the set cannot be told from them", e.RuleSet)
}
