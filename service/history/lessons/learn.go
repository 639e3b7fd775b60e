package lessons

import (
	"cmp"
	"fmt"
	"slices"
)

// Split says what classes are told apart by besides the step; what is not named is passed over.
type Split struct{ Softness, Band, Kind, Shade bool }

// ByMark tells apart what a rule about a mark goes by.
func ByMark() Split { return Split{Softness: true, Band: true, Kind: true} }

func (s Split) of(c Class) Class {
	if !s.Softness {
		c.Softness = ""
	}
	if !s.Band {
		c.Band = NotGraded
	}
	if !s.Kind {
		c.Kind = ""
	}
	if !s.Shade {
		c.Shade = ""
	}
	return c
}

// Lessons are what a record says, class by class. They do not change and may be used by several goroutines at once.
type Lessons struct {
	split   Split
	lessons map[Class]*Lesson
	jobs    int
}

// Learn pools a record: within each step, classes that have few records are drawn towards what the shop does on the whole, and
// that towards what is expected. Expect says what is usual for a class; it is asked for the step alone too, with nothing else
// known, and what it says there of spreads holds for all classes of the step. The classes in also get a lesson even if they have
// no record. The error is that of expect, or says which expectation cannot be reckoned with.
func Learn(records *Records, split Split, expect func(Class) (Expectation, error), also ...Class) (*Lessons, error) {
	out := &Lessons{split: split, lessons: map[Class]*Lesson{}, jobs: records.Jobs()}
	piles := piles{}
	for o := range records.All() {
		piles.of(o.Step).of(split.of(o.Class)).add(o)
	}
	for _, c := range also {
		piles.of(c.Step).of(split.of(c))
	}
	for _, p := range piles {
		lessons, err := p.learn(expect)
		if err != nil {
			return nil, fmt.Errorf("what is expected of a %s: %w", p.step, err)
		}
		for i := range lessons {
			out.lessons[lessons[i].Class] = &lessons[i]
		}
	}
	return out, nil
}

// Lesson is what the record says of a class; words that the split does not tell apart are passed over. False: the class has no
// record, and was not asked for.
func (l *Lessons) Lesson(c Class) (Lesson, bool) {
	found := l.lessons[l.split.of(c)]
	if found == nil {
		return Lesson{}, false
	}
	return *found, true
}

// All are the lessons in order: finish before polish before cut, then softness, band, kind and shade.
func (l *Lessons) All() []Lesson {
	out := make([]Lesson, 0, len(l.lessons))
	for _, lesson := range l.lessons {
		out = append(out, *lesson)
	}
	slices.SortFunc(out, func(a, b Lesson) int {
		return cmp.Or(
			cmp.Compare(strength(a.Class.Step), strength(b.Class.Step)),
			cmp.Compare(hardness(a.Class.Softness), hardness(b.Class.Softness)),
			cmp.Compare(a.Class.Band, b.Class.Band),
			cmp.Compare(a.Class.Kind, b.Class.Kind),
			cmp.Compare(a.Class.Shade, b.Class.Shade),
		)
	})
	return out
}

// Jobs is how many jobs the lessons rest on.
func (l *Lessons) Jobs() int { return l.jobs }

// hardness orders the words of softness, not known last.
func hardness(softness string) int {
	if i := slices.Index([]string{"very-soft", "soft", "medium", "hard", "very-hard"}, softness); i >= 0 {
		return i
	}
	return 5
}
