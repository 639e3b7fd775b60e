// Package baytime follows the bay time of jobs through their events, as the entries of a calendar that is read again and again:
// what was booked first keeps its name when it moves, every change raises its number, and what is off says so.
//
// It owns which block of a later booking is the same entry as one of an earlier, and nothing of how calendars are written. An
// entry is made from the events alone, so that it is the same on every machine and after every restart.
package baytime
