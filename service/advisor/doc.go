// Package advisor is the heart: it takes what a technician found, reckons the facts that rules decide on, asks the
// decision tables in their order, and gives the ladder worth trying with every reason; after a trial it gives the verdict
// and the next move, until the ladder is proven or there is nothing more to try.
//
// It owns the order in which tables are asked, how their answers combine over defects, steps and panels, and the
// guards that no rule file can lift: no step above the limit, no ladder that ends on a cut, a trial loop that ends. It owns
// no judgement of its own (rules do) and no formula (gloss, film and climate do).
//
// It is pure: the same inspection, trials, rule set and lessons give the same answer. It imports no contract, storage, transport,
// clock or log. Words are those of the rule files ("very-soft", "wash-marks"); an empty word and a nil number mean
// "not known".
package advisor
