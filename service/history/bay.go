package history

import (
	"errors"
	"fmt"
	"slices"
	"time"
)

// Bay is the bay time of a job.
type Bay struct {
	// ID names the bay.
	ID string `json:"id"`
	// Blocks are stretches of work in it, in order and apart.
	Blocks []BayBlock `json:"blocks"`
}

// BayBlock is one stretch of bay time.
type BayBlock struct {
	// Piece is the work that is done in it: "polish".
	Piece string    `json:"piece"`
	Start time.Time `json:"start"`
	End   time.Time `json:"end"`
}

// mostBlocks is how many blocks one job may have.
const mostBlocks = 100

func (b *Bay) check() error {
	errs := []error{CheckID("bay.bay", b.ID)}
	if len(b.Blocks) == 0 || len(b.Blocks) > mostBlocks {
		errs = append(errs, &InputError{Field: "bay.blocks", Says: fmt.Sprintf("has %d blocks, allowed are 1 to %d", len(b.Blocks), mostBlocks)})
	}
	for i := range b.Blocks {
		errs = append(errs, b.checkBlock(i))
	}
	return errors.Join(errs...)
}

func (b *Bay) checkBlock(i int) error {
	block, field := b.Blocks[i], fmt.Sprintf("bay.blocks[%d]", i)
	errs := []error{checkText(field+".what", block.Piece, 100)}
	if block.Piece == "" {
		errs = append(errs, &InputError{Field: field + ".what", Says: "is missing; say what is done in it"})
	}
	switch {
	case block.Start.IsZero():
		errs = append(errs, &InputError{Field: field + ".start_time", Says: "is missing"})
	case !block.End.After(block.Start):
		errs = append(errs, &InputError{Field: field + ".end_time", Says: "is not after start_time"})
	case i > 0 && block.Start.Before(b.Blocks[i-1].End):
		errs = append(errs, &InputError{Field: field + ".start_time", Says: "is before the end of the block before; blocks stand in order and apart"})
	}
	return errors.Join(errs...)
}

// same reports whether two bookings are alike; nil is none.
func (b *Bay) same(o *Bay) bool {
	if b == nil || o == nil {
		return b == o
	}
	return b.ID == o.ID && slices.EqualFunc(b.Blocks, o.Blocks, func(x, y BayBlock) bool {
		return x.Piece == y.Piece && x.Start.Equal(y.Start) && x.End.Equal(y.End)
	})
}

// Same reports whether details say the same.
func (d *Details) Same(o *Details) bool {
	return d.Label == o.Label && d.Notes == o.Notes && d.BookedFor.Equal(o.BookedFor) && d.Bay.same(o.Bay)
}
