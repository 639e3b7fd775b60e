package film

import "errors"

// Bound is one of the three limits on what may be taken.
type Bound string

// The limits of a [Policy].
const (
	Floor Bound = "clear that must stay"
	Share Bound = "share of the clear over the vehicle's life"
	Most  Bound = "most over the vehicle's life"
)

// Budget is what may still be taken off a panel, a lower bound, with the terms it came from.
type Budget struct {
	// UsableUm is the least of the three terms below, and never less than zero.
	UsableUm Microns
	// Binding is the limit that set it; of equal limits the one named first under [Bound].
	Binding Bound

	// FloorUm, ShareUm and MostUm are what each limit alone would still allow; below zero, the limit is already passed.
	FloorUm Microns
	ShareUm Microns
	MostUm  Microns

	// ClearUm is the clear now and ClearFirstUm the clear before anything was taken, both at the thin end.
	ClearUm      Microns
	ClearFirstUm Microns
	// TakenUm is what earlier visits took, at the high end.
	TakenUm Microns
	// ByShare is true when the clear was not read but reckoned as a share of the whole film.
	ByShare bool
}

// Usable reckons what may still be taken off. A nil m means that film is not known; the answer then is nil, which is
// not a budget of any size. The error is that of [Policy.Check] or of [Removal.Check].
//
// Readings are of the panel as it stands, after whatever earlier visits took; all they took was clear. So
//
//	clear first = clear now + taken             where the clear was read
//	clear first = share x (total now + taken)   where only the whole film was, up to RepaintUm
//	usable      = min(TakeMost, TakeShare x clear first, clear first - ClearFloor) - taken
//
// with both readings at their lower bound and taken at its high end; every term falls, or stays, as taken rises, so
// the answer is a lower bound. The shape follows the limits that vehicle makers have published: a least thickness that
// must stay and a most that may go, counted over all visits (GM service bulletin 86-10-24, 1986: 1.4 mil stays;
// 91-282-10, 1991: 0.5 mil may go). The share over life is common practice, no source.
func (p Policy) Usable(m *Measured, taken Removal) (*Budget, error) {
	if err := errors.Join(p.Check(), taken.Check()); err != nil {
		return nil, err
	}
	if m == nil {
		return nil, nil
	}
	b := &Budget{TakenUm: taken.HighUm}
	if m.Layer == Top {
		b.ClearFirstUm = m.LowestBoundUm + taken.HighUm
	} else {
		b.ByShare = true
		b.ClearFirstUm = Microns(p.ClearSharePct/100) * min(m.LowestBoundUm+taken.HighUm, p.RepaintUm)
	}
	b.ClearUm = max(0, b.ClearFirstUm-taken.HighUm)
	b.FloorUm = b.ClearFirstUm - p.ClearFloorUm - taken.HighUm
	b.ShareUm = Microns(p.TakeSharePct/100)*b.ClearFirstUm - taken.HighUm
	b.MostUm = p.TakeMostUm - taken.HighUm
	b.bind()
	return b, nil
}

func (b *Budget) bind() {
	least := b.FloorUm
	b.Binding = Floor
	if b.ShareUm < least {
		least, b.Binding = b.ShareUm, Share
	}
	if b.MostUm < least {
		least, b.Binding = b.MostUm, Most
	}
	b.UsableUm = max(0, least)
}
