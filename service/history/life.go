package history

import (
	"cmp"
	"slices"

	"github.com/glossladder/glossladder/service/film"
)

// PanelLife is what all visits together took off one panel of a vehicle.
type PanelLife struct {
	Panel string
	// Taken is the sum, low ends to low ends and high ends to high ends as [film.Ladder] adds, with what was said to have
	// been taken before the first visit on record. Its high end is what the next visit counts as taken.
	Taken film.Removal
	// Visits are the jobs that took anything, the earliest first.
	Visits []VisitTaken
	// Incomplete is true when some visit has work that is not accounted for: the figures are then too low.
	Incomplete bool
}

// VisitTaken is what one job took off a panel.
type VisitTaken struct {
	Job string
	FilmTaken
}

// Life adds up what jobs of one vehicle took off its panels, in the order in which the panels were first seen. The jobs may
// come in any order. What an inspection says that earlier visits took counts where it is more than what is on record of them:
// other shops' work is on no record here, and a figure said too low cannot give back what is gone.
func Life(jobs []*Job) []PanelLife {
	jobs = slices.Clone(jobs)
	slices.SortStableFunc(jobs, func(a, b *Job) int {
		return cmp.Or(a.CreatedAt.Compare(b.CreatedAt), cmp.Compare(a.ID, b.ID))
	})
	var lives []PanelLife
	for _, j := range jobs {
		for _, p := range j.Panels {
			at := slices.IndexFunc(lives, func(l PanelLife) bool { return l.Panel == p.ID })
			if at < 0 {
				at = len(lives)
				lives = append(lives, PanelLife{Panel: p.ID})
			}
			lives[at].add(j.ID, p)
		}
	}
	return lives
}

func (l *PanelLife) add(job string, p *Panel) {
	if said := p.Found.TakenUm; said != nil && film.Microns(*said) > l.Taken.HighUm {
		um := film.Microns(*said)
		l.Taken = film.Removal{LowUm: um, LikelyUm: um, HighUm: um}
	}
	taken := p.Taken()
	if taken == nil {
		return
	}
	l.Taken = plus(l.Taken, taken.Removal)
	l.Visits = append(l.Visits, VisitTaken{Job: job, FilmTaken: *taken})
	l.Incomplete = l.Incomplete || len(taken.Unaccounted) > 0
}
