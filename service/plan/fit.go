package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Choice is one ladder that a panel may get, with what it costs and what it brings. Whole numbers keep sums exact.
type Choice struct {
	Ladder  string
	Steps   []string // of the ladder; empty for leaving the panel as it is
	Minutes int      // of work on this panel
	Worth   int      // what an owner sees of it; the unit is the caller's, the same for every panel
	TakesNm int      // film that goes, in nm: of two equal results the one that takes less is better
}

// Candidate is a panel and everything it may get. Leaving it alone is a choice like any other and has to be listed where
// it is allowed.
type Candidate struct {
	Panel   string
	Choices []Choice
}

// Setup is the minutes that a step costs once for the vehicle as soon as one panel gets it: priming, changing over.
type Setup map[string]int

// Fit is a choice for every panel.
type Fit struct {
	Picks   []int // by panel, a place in its choices
	Minutes int   // all of it, setups included
	Worth   int
	TakesNm int
}

// What can be planned at once.
const (
	MostPanels  = 60
	MostChoices = 16
	MostSteps   = 6
	MostMinutes = 100 * 60
)

// ErrNoRoom means that not even the quickest choice of every panel fits the minutes.
var ErrNoRoom = errors.New("no choice of ladders fits the time")

// NoRoomError says how much time the quickest choice of every panel needs. It is an [ErrNoRoom].
type NoRoomError struct{ Minutes, Least int }

func (e *NoRoomError) Error() string {
	return fmt.Sprintf("%d minutes are too few: the least that these panels need is %d", e.Minutes, e.Least)
}

// Unwrap makes it an [ErrNoRoom].
func (e *NoRoomError) Unwrap() error { return ErrNoRoom }

// Best is the choice for every panel with the greatest worth that fits the minutes; of equals the one with fewer minutes,
// then with less film. It is the exact optimum: a multiple-choice knapsack solved by dynamic programming over whole
// minutes, once for each set of steps, since a setup is paid once.
//
// Errors: [*NoRoomError], or what is wrong with the candidates.
func Best(panels []Candidate, setup Setup, minutes int) (Fit, error) {
	curve, err := Tradeoff(panels, setup, minutes)
	if err != nil {
		return Fit{}, err
	}
	return curve[len(curve)-1], nil
}

// Tradeoff is every fit within the minutes that no other beats in both worth and minutes, from the quickest to the best.
// It has at least one entry. Errors are those of [Best].
func Tradeoff(panels []Candidate, setup Setup, minutes int) ([]Fit, error) {
	if err := check(panels, setup, minutes); err != nil {
		return nil, err
	}
	steps := stepsIn(panels)
	idle := beaten(panels)
	var all []Fit
	for set := range uint(1) << len(steps) {
		open := allowed(panels, steps, set)
		for i := range open {
			for k := range open[i] {
				open[i][k] = open[i][k] && !idle[i][k]
			}
		}
		all = append(all, fits(panels, setupOf(steps, set, setup), open, minutes)...)
	}
	if len(all) == 0 {
		return nil, &NoRoomError{Minutes: minutes, Least: least(panels, steps, setup)}
	}
	return front(all), nil
}

// front keeps what nothing beats, in rising minutes and worth.
func front(all []Fit) []Fit {
	slices.SortStableFunc(all, func(a, b Fit) int {
		return cmp.Or(cmp.Compare(a.Minutes, b.Minutes), cmp.Compare(b.Worth, a.Worth), cmp.Compare(a.TakesNm, b.TakesNm))
	})
	out := all[:1:1]
	for _, f := range all[1:] {
		if f.Worth > out[len(out)-1].Worth {
			out = append(out, f)
		}
	}
	return out
}

// stepsIn is every step that some choice uses.
func stepsIn(panels []Candidate) []string {
	var steps []string
	for _, p := range panels {
		for _, c := range p.Choices {
			for _, s := range c.Steps {
				if !slices.Contains(steps, s) {
					steps = append(steps, s)
				}
			}
		}
	}
	return steps
}

func setupOf(steps []string, set uint, setup Setup) (minutes int) {
	for i, s := range steps {
		if set>>i&1 == 1 {
			minutes += setup[s]
		}
	}
	return minutes
}

// allowed says, by panel, which choices need no step outside the set. A larger set than is used only costs setup that a
// smaller one saves, so looking at every set finds the best.
func allowed(panels []Candidate, steps []string, set uint) [][]bool {
	out := make([][]bool, len(panels))
	for i, p := range panels {
		out[i] = make([]bool, len(p.Choices))
		for k, c := range p.Choices {
			out[i][k] = !slices.ContainsFunc(c.Steps, func(s string) bool { return set>>slices.Index(steps, s)&1 == 0 })
		}
	}
	return out
}

// beaten says, by panel, which choices another of the same panel beats whatever is chosen elsewhere. Of equals the first stays.
func beaten(panels []Candidate) [][]bool {
	out := make([][]bool, len(panels))
	for i, p := range panels {
		out[i] = make([]bool, len(p.Choices))
		for k, c := range p.Choices {
			for other, d := range p.Choices {
				needsNoMore := !slices.ContainsFunc(d.Steps, func(s string) bool { return !slices.Contains(c.Steps, s) })
				asGood := d.Worth >= c.Worth && d.Minutes <= c.Minutes && d.TakesNm <= c.TakesNm && needsNoMore
				same := d.Worth == c.Worth && d.Minutes == c.Minutes && d.TakesNm == c.TakesNm && len(d.Steps) == len(c.Steps)
				out[i][k] = out[i][k] || asGood && (!same || other < k)
			}
		}
	}
	return out
}

// cell is the best way to spend exactly so many minutes on the panels so far.
type cell struct {
	worth, takesNm int
	reached        bool
}

func (c cell) worse(worth, takesNm int) bool {
	return !c.reached || worth > c.worth || worth == c.worth && takesNm < c.takesNm
}

// fits solves one set of steps and returns the best fit of every total that can be reached.
func fits(panels []Candidate, setup int, allowed [][]bool, minutes int) []Fit {
	room := min(minutes-setup, longest(panels, allowed))
	if room < 0 {
		return nil
	}
	reach := 0 // more minutes than that the panels so far cannot come to
	now, next := make([]cell, room+1), make([]cell, room+1)
	now[0].reached = true
	picks := make([][]int8, len(panels)) // by panel and minutes: what was picked to get there
	for i, p := range panels {
		picks[i] = make([]int8, room+1)
		clear(next)
		farther := reach
		for k, c := range p.Choices {
			if !allowed[i][k] {
				continue
			}
			farther = max(farther, min(room, reach+c.Minutes))
			for m := c.Minutes; m <= min(room, reach+c.Minutes); m++ {
				from := now[m-c.Minutes]
				if from.reached && next[m].worse(from.worth+c.Worth, from.takesNm+c.TakesNm) {
					next[m] = cell{from.worth + c.Worth, from.takesNm + c.TakesNm, true}
					picks[i][m] = int8(k)
				}
			}
		}
		now, next, reach = next, now, farther
	}
	return reached(panels, now, picks, setup)
}

// longest is the most minutes that the choices come to.
func longest(panels []Candidate, allowed [][]bool) (sum int) {
	for i, p := range panels {
		most := 0
		for k, c := range p.Choices {
			if allowed[i][k] {
				most = max(most, c.Minutes)
			}
		}
		sum += most
	}
	return sum
}

// reached reads the picks back for every total that beats all shorter ones.
func reached(panels []Candidate, last []cell, picks [][]int8, setup int) []Fit {
	var out []Fit
	for m, c := range last {
		if !c.reached || len(out) > 0 && c.worth <= out[len(out)-1].Worth {
			continue
		}
		fit := Fit{Picks: make([]int, len(panels)), Minutes: m + setup, Worth: c.worth, TakesNm: c.takesNm}
		at := m
		for i := len(panels) - 1; i >= 0; i-- {
			fit.Picks[i] = int(picks[i][at])
			at -= panels[i].Choices[fit.Picks[i]].Minutes
		}
		out = append(out, fit)
	}
	return out
}

// least is the fewest minutes that any choice for every panel comes to.
func least(panels []Candidate, steps []string, setup Setup) int {
	best := -1
	for set := range uint(1) << len(steps) {
		sum := setupOf(steps, set, setup)
		open := allowed(panels, steps, set)
		for i, p := range panels {
			quickest := -1
			for k, c := range p.Choices {
				if open[i][k] && (quickest < 0 || c.Minutes < quickest) {
					quickest = c.Minutes
				}
			}
			if quickest < 0 {
				sum = -1
				break
			}
			sum += quickest
		}
		if sum >= 0 && (best < 0 || sum < best) {
			best = sum
		}
	}
	return best
}
