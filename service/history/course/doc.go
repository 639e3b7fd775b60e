// Package course says whether the work goes as the trial promised: readings taken while a step is carried over the vehicle, in
// their order, beside what the trial of that step reached.
//
// It is pure, and knows jobs and readings only: what a trial's spots read afterwards is given to it.
package course
