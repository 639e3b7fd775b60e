package advisor

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/service/film"
)

// filmTaken reckons what a trial took from its section and what may still go. It is nil when film is not known. Trials on
// the same section add up; a fresh section starts again from the panel's usable film.
func (b *bench) filmTaken(trial *Trial) *FilmTaken {
	if b.advice.Film == nil {
		return nil
	}
	if trial.FreshSection {
		b.takenUm = 0
	}
	out := b.predicted(trial)
	if measured, ok := b.measured(trial); ok {
		out = measured
	}
	b.takenUm += out.HighUm
	out.UsableLeftUm = float64(b.advice.Film.Budget.UsableUm) - b.takenUm
	return out
}

func (b *bench) predicted(trial *Trial) *FilmTaken {
	r := b.c.removal[trial.Step]
	return &FilmTaken{
		TakenUm: float64(r.LikelyUm), LowUm: float64(r.LowUm), HighUm: float64(r.HighUm),
		Note: "predicted; film was not measured before and after, or the gauge cannot resolve so little",
	}
}

// measured is the film taken by the readings, where they can resolve it.
func (b *bench) measured(trial *Trial) (*FilmTaken, bool) {
	before := trial.FilmBefore
	if len(before) == 0 {
		before = b.c.panel.Film
	}
	if len(before) == 0 || len(trial.FilmAfter) == 0 {
		return nil, false
	}
	panel := func(spots []FilmSpot) film.Panel {
		return film.Panel{
			Name: b.c.panel.ID, Substrate: film.Substrate(b.c.panel.Substrate), Layer: film.Total, Spots: filmSpots(film.Total, spots),
		}
	}
	diff, err := film.Removed(b.c.in.FilmGauge, film.LeftAsSet, panel(before), panel(trial.FilmAfter), b.c.policy.confidencePct)
	if err != nil || !diff.Resolvable || diff.RemovedUm < 0 {
		return nil, false
	}
	return &FilmTaken{
		TakenUm: float64(diff.RemovedUm), LowUm: max(0, float64(diff.LowUm)), HighUm: float64(diff.HighUm), Measured: true,
		Note: fmt.Sprintf("measured at %d %s before and after", diff.Spots, plural(diff.Spots, "spot")),
	}, true
}

func plural(n int, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// check finds what cannot be reckoned with in the trials, every fault at once.
func (b *bench) check() error {
	var wrong troubles
	for i, trial := range b.trials {
		where := fmt.Sprintf("trials[%d]", i)
		if strength(trial.Step) <= 0 {
			wrong = append(wrong, Trouble{Field: where + ".step", Says: fmt.Sprintf("%q is not a step to try; try finish, polish or cut", trial.Step)})
		}
		if len(trial.FilmAfter) > 0 {
			b.checkFilm(where+".film_after", trial.FilmAfter, &wrong)
		}
		if len(trial.FilmBefore) > 0 {
			b.checkFilm(where+".film_before", trial.FilmBefore, &wrong)
		}
		if len(trial.After) > 0 && len(b.before(&b.trials[i])) > 0 && !shareSpot(b.before(&b.trials[i]), trial.After) {
			wrong = append(wrong, Trouble{Field: where + ".after", Says: "no spot has the name of a spot read before; read the same taped spots again"})
		}
	}
	return wrong.asError()
}

func (b *bench) checkFilm(where string, spots []FilmSpot, wrong *troubles) {
	_, err := film.Measure(b.c.in.FilmGauge, film.Panel{
		Name: b.c.panel.ID, Substrate: film.Substrate(b.c.panel.Substrate), Layer: film.Total, Spots: filmSpots(film.Total, spots),
	}, b.c.policy.confidencePct)
	if err != nil {
		addFilmTrouble(wrong, where, spots, film.Total, err)
	}
}

func shareSpot(before, after []GlossSpot) bool {
	return slices.ContainsFunc(after, func(a GlossSpot) bool {
		return slices.ContainsFunc(before, func(b GlossSpot) bool { return a.Spot == b.Spot })
	})
}
