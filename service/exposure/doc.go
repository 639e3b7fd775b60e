// Package exposure reckons a working day's hand-arm vibration and noise from what each stretch of work gives and how long it
// lasts. It compares with limits that the caller names and never says that a day is safe: that is for the employer's own
// assessment and local law.
//
// It is pure: no proto, no files, no clock. It imports nothing of the project.
package exposure
