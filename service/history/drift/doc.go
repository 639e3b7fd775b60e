// Package drift watches readings taken during the work for a process that is leaving its course, such as a pad that loads up:
// a control chart of individual readings.
//
// It is pure: no proto, no database, no clock, and knows nothing of paint.
package drift
