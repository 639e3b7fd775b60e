// Package compare tells how two rule sets of the same schema differ: by rule, and by
// effect, which is the exact regions of input whose answer changes.
//
// Both tables of a comparison are held in one space: a box that both have stands in
// it once, and all bounds of both cut it. A clause that is no bound on single facts
// is an axis of its own there, with the values false, unknown and true, so that it
// weakens nothing but the regions that name it. Only where a box that differs holds
// can an answer differ, so only there is looked.
//
// A comparison has three results: proved that no answer differs, regions, or not
// decided within the steps it was given. It reads no files and knows no clock.
package compare
