// Package workplan puts a job together: what the tables say about each panel, the shop's catalogue and what the caller settled
// become a plan, an estimate, or the best use of fixed hours.
//
// It owns which number of which table goes where, and the trail that leads from every figure of a plan back to its rule. The sums
// are service/plan's and the decisions service/advisor's. It is pure: no proto, no files, no clock.
package workplan
