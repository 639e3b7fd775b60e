// Package engine puts the same first-hit table into each of the engines compared, in the form that suits that engine best,
// and asks it for a point's answer in up to three ways.
//
// Each file owns one engine. What is fair to it, and what is not, stands in its Note. The package never measures.
package engine
