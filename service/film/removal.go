package film

import (
	"errors"
	"fmt"
)

// Removal is how much film a step or a ladder takes, or took: at the low end, most likely, and at the high end. The
// zero value is nothing.
type Removal struct {
	LowUm    Microns
	LikelyUm Microns
	HighUm   Microns
}

// OutOfOrderError tells of a removal whose three figures do not rise.
type OutOfOrderError struct{ Removal Removal }

func (e *OutOfOrderError) Error() string {
	r := e.Removal
	return fmt.Sprintf("removal is low_um %v, likely_um %v, high_um %v; they must rise from low to high", float64(r.LowUm), float64(r.LikelyUm), float64(r.HighUm))
}

// Check returns nil for 0 <= low <= likely <= high, otherwise a [*RangeError] for each figure out of 0 to
// 3000 µm, or an [*OutOfOrderError].
func (r Removal) Check() error {
	err := errors.Join(
		checkThickness("removal low_um", r.LowUm),
		checkThickness("removal likely_um", r.LikelyUm),
		checkThickness("removal high_um", r.HighUm),
	)
	if err == nil && (r.LowUm > r.LikelyUm || r.LikelyUm > r.HighUm) {
		return &OutOfOrderError{r}
	}
	return err
}

// Ladder adds up the removals of steps worked one after another; of no steps it is nothing. Low ends add to the low end
// and high ends to the high end, not as squares: the same paint, hand and machine make all steps take more, or all
// less. The error joins those of the steps' [Removal.Check].
func Ladder(steps ...Removal) (Removal, error) {
	var sum Removal
	var errs []error
	for _, s := range steps {
		errs = append(errs, s.Check())
		sum.LowUm += s.LowUm
		sum.LikelyUm += s.LikelyUm
		sum.HighUm += s.HighUm
	}
	if err := errors.Join(errs...); err != nil {
		return Removal{}, err
	}
	return sum, nil
}

// Left is what remains of a budget after a removal.
type Left struct {
	// LowUm is usable film less the high end of the removal: the figure to go by. Below zero the removal cannot be
	// afforded, by that much.
	LowUm Microns
	// LikelyUm is usable film less the likely removal.
	LikelyUm Microns
	// ClearUm is the clear that stays at the thin end, never below zero.
	ClearUm Microns
}

// Fits reports whether the removal stays within the budget even at its high end.
func (l Left) Fits() bool { return l.LowUm >= 0 }

// After says what a removal would leave. It spends nothing. The error is that of [Removal.Check].
func (b Budget) After(r Removal) (Left, error) {
	if err := r.Check(); err != nil {
		return Left{}, err
	}
	return Left{
		LowUm:    b.UsableUm - r.HighUm,
		LikelyUm: b.UsableUm - r.LikelyUm,
		ClearUm:  max(0, b.ClearUm-r.HighUm),
	}, nil
}
