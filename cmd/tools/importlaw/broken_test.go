package importlaw_test

import (
	"errors"
	"io/fs"
)

var errDamp = errors.New("the disk is damp")

// brokenTree is a file system that opens nothing.
type brokenTree struct{}

func (brokenTree) Open(string) (fs.File, error) { return nil, errDamp }
