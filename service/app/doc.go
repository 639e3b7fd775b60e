// Package app puts the service together and runs it: options, rules in force, server, listeners and the order of life.
//
// It owns nothing of the trade. It binds its listener in New, so that a caller knows the address before Run, and closes
// everything in the reverse order of opening.
package app
