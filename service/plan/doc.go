// Package plan turns proven ladders into hours, materials, money and an order of work, and finds the best use of hours that are
// fixed.
//
// It is pure: no proto, no files, no clock. What a shop may want to change (areas, minutes, prices) comes in from its rule
// files and its catalogue; here is only how those numbers add up.
package plan
