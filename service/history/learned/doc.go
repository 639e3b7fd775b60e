// Package learned turns what a shop has recorded into what to expect next: partial pooling of groups that have much in common
// and little data each.
//
// A group with many records speaks for itself. One with few is drawn towards the shop's own mean over all groups, and a
// shop with few records towards a stated prior. How strongly is not chosen but follows from the records: from how far the
// groups differ beside the scatter within them. Both models are full posteriors on a grid, so that the intervals carry the
// doubt about those spreads as well.
//
// It is pure: no proto, no database, no clock, and knows nothing of paint.
package learned
