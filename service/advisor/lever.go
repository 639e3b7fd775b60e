package advisor

import (
	"math"
	"strconv"

	"github.com/glossladder/glossladder/rules"
)

// lever is one thing about a panel or its last trial that may be otherwise: it may be measured again, chosen, or have been
// given otherwise. It has places: the words of a list, no and yes, or the points of an instrument's grid.
type lever struct {
	// fact names it as rules do; other facts may follow from it.
	fact  rules.Fact
	words []string // of a word, as rules write them; nil for a number
	least float64  // of a number
	step  float64
	size  int
	// at is the place of the present value, -1 when there is none.
	at    int
	value float64 // the present number, between grid points too
	// about is the defect that it belongs to, -1 for none.
	about int
	// trial says that it is about the last trial; movesTrial that it is not and yet moves what rules see of the trial.
	trial, movesTrial bool
	// sway is how far the true value may lie from the reading; nil when that is not known.
	sway *float64
	// breaks are numbers at which something may turn that no fact shows as a bound.
	breaks []float64
	set    func(s *situation, place int)
	// clear leaves it unknown; nil where that would be another question.
	clear func(s *situation)
}

// far is what counts as far for a number, so that changes of different things can be compared. Our choice, no source.
var far = map[string]float64{
	"defect.severity": 5, "trial.severity_left": 5, "trial.trails_left": 5, "paint.age_years": 40, "paint.cured_days": 90,
	"film.lowest_um": 100, "film.clear_um": 30, "film.taken_um": 20, "film.edge_drop_um": 50,
	"climate.panel_c": 40, "trial.panel_c": 40, "climate.air_c": 40, "climate.humidity_pct": 100,
	"gloss.at20_gu": 30, "gloss.at60_gu": 30, "gloss.at85_gu": 30, "haze.meter_hu": 60, "trial.gain_gu": 10, "trial.haze": 10,
	"trial.number": 8, "trial.number_left": 8, "trial.on_step": 4, "trial.things_changed": 3, "trial.short_by": 5, "trial.improved_by": 5,
	"trial.film_left_um": 20, "trial.after_repeat_um": 20, "trial.after_step_up_um": 20, "film.usable_um": 20,
	"film.after_finish_um": 20, "film.after_polish_um": 20, "film.after_cut_um": 20, "film.neighbour_um": 100, "film.highest_um": 400,
}

func (l *lever) number() bool  { return l.words == nil }
func (l *lever) ordered() bool { return l.number() || l.fact.Ordered }
func (l *lever) known() bool   { return l.at >= 0 }

// numberAt is the number of a place.
func (l *lever) numberAt(place int) float64 {
	return math.Round((l.least+float64(place)*l.step)*1e6) / 1e6
}

// show is a place in words: "2.5", "114.4 µm", "clear coat".
func (l *lever) show(place int) string {
	if !l.number() {
		return spokenWord(l.fact.Name, l.words[place])
	}
	return showNumber(l.numberAt(place), l.fact.Unit)
}

// nowInWords is the present value, "" when there is none.
func (l *lever) nowInWords() string {
	if !l.known() {
		return ""
	}
	return l.show(l.at)
}

func showNumber(v float64, unit string) string {
	text := strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
	if unit == "" {
		return text
	}
	if unit == "years" || unit == "days" {
		unit = plural(int(math.Round(v)), unit[:len(unit)-1])
	}
	return text + " " + unit
}

// away is how far a place lies from the present value: in the fact's unit, in words of a list, or one.
func (l *lever) away(place int) float64 {
	switch {
	case !l.known():
		return 1
	case l.number():
		return math.Abs(l.numberAt(place) - l.value)
	case l.ordered():
		return math.Abs(float64(place - l.at))
	}
	return 1
}

// share is how far that is, as a share of what counts as far. What has no order comes after everything that is near.
func (l *lever) share(place int) float64 {
	switch {
	case !l.known():
		return 0.9
	case l.number():
		return l.away(place) / scaleOf(l.fact)
	case l.ordered():
		return l.away(place) / float64(l.size-1)
	case l.fact.Kind == rules.Flag:
		return 0.5
	}
	return 1
}

// scaleOf is what counts as far for a fact.
func scaleOf(fact rules.Fact) float64 {
	if scale, ok := far[fact.Name]; ok {
		return scale
	}
	if fact.Kind == rules.Number {
		return fact.Max - fact.Min
	}
	return float64(max(1, len(fact.Words)-1))
}

// fact is the declaration of a fact; levers name facts of the contract only.
func (e *enquiry) fact(name string) rules.Fact {
	schema := e.a.set.Schema()
	id, _ := schema.FactID(name)
	return schema.Fact(id)
}

func (e *enquiry) wordLever(name, now string, set func(*situation, string)) lever {
	fact := e.fact(name)
	l := lever{fact: fact, words: fact.Words, size: len(fact.Words), at: -1, about: -1}
	for k, word := range fact.Words {
		if word == now {
			l.at = k
		}
	}
	l.set = func(s *situation, place int) { set(s, fact.Words[place]) }
	l.clear = func(s *situation) { set(s, "") }
	return l
}

var noYes = []string{"no", "yes"}

func (e *enquiry) flagLever(name string, now *bool, set func(*situation, *bool)) lever {
	l := lever{fact: e.fact(name), words: noYes, size: 2, at: -1, about: -1}
	if now != nil {
		l.at = 0
		if *now {
			l.at = 1
		}
	}
	l.set = func(s *situation, place int) { set(s, ptr(place == 1)) }
	l.clear = func(s *situation) { set(s, nil) }
	return l
}

// numberLever moves a number that the inspection itself states.
func (e *enquiry) numberLever(name string, now *float64, set func(*situation, *float64)) lever {
	l := numbersOf(e.fact(name))
	if now != nil {
		l.stand(*now)
	}
	l.set = func(s *situation, place int) { set(s, ptr(l.numberAt(place))) }
	l.clear = func(s *situation) { set(s, nil) }
	return l
}

// numbersOf is the grid of a number.
func numbersOf(fact rules.Fact) lever {
	return lever{fact: fact, least: fact.Min, step: fact.Step, size: 1 + int(math.Round((fact.Max-fact.Min)/fact.Step)), at: -1, about: -1}
}

// stand notes the present number.
func (l *lever) stand(value float64) {
	l.value = value
	l.at = min(max(int(math.Round((value-l.least)/l.step)), 0), l.size-1)
}
