package cli

import (
	"fmt"
	"slices"
	"strings"
)

// choice is a flag that takes one of a few words.
type choice struct {
	value string
	words []string
}

func (c *choice) String() string { return c.value }

// Type is the words themselves, as long as they leave room for the help; a wrong one is answered with all of them.
func (c *choice) Type() string {
	const most = 7
	if len(c.words) > most {
		return "word"
	}
	return strings.Join(c.words, "|")
}

func (c *choice) Set(value string) error {
	if !slices.Contains(c.words, value) {
		return fmt.Errorf("choose %s", strings.Join(c.words, ", "))
	}
	c.value = value
	return nil
}
