package app

import (
	"bytes"
	"fmt"
	"io/fs"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
	"github.com/glossladder/glossladder/rules/shipped"
)

// keepsPromises refuses a set that breaks a safety promise: one that was shipped, whatever stands in the set's own file,
// or one of its own. The error is [rules.Problems] with an input that breaks each.
func keepsPromises(set *rules.Set) error {
	binding, err := fs.ReadFile(shipped.Files(), promise.File)
	if err != nil {
		return fmt.Errorf("read the shipped promises: %w", err)
	}
	problems, err := broken(set, "shipped "+promise.File, binding)
	if err != nil {
		return err
	}
	if own, ok := set.Source(promise.File); ok && !bytes.Equal(own, binding) {
		more, err := broken(set, promise.File, own)
		if err != nil {
			return err
		}
		problems = append(problems, more...)
	}
	if len(problems) > 0 {
		return problems
	}
	return nil
}

// broken are the safety promises of one file that a set does not keep.
func broken(set *rules.Set, name string, src []byte) (rules.Problems, error) {
	promises, err := promise.Parse(name, src)
	if err != nil {
		return nil, err
	}
	verdicts, err := promise.Verify(set, promises, 0)
	if err != nil {
		return nil, err
	}
	return promise.Refusals(verdicts), nil
}
