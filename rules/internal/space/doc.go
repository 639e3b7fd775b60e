// Package space holds the geometry that the rule engine thinks in: axes (one a
// fact), codes (the places of a value on its axis), and boxes (what one line of
// a condition lets through on every axis).
//
// A number is coded on its instrument's own grid, a word by its place in its
// list, a flag as 0 or 1, and a fact nobody measured as [Missing]. All the
// algorithms then work on small integers, closed intervals and bit masks, and
// there are no open and closed ends to confuse.
//
// It never imports anything but the standard library and knows neither rules
// nor files.
package space
