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
func (c *choice) Type() string   { return strings.Join(c.words, "|") }

func (c *choice) Set(value string) error {
	if !slices.Contains(c.words, value) {
		return fmt.Errorf("choose %s", strings.Join(c.words, ", "))
	}
	c.value = value
	return nil
}
