// Package transcript carries a job from one store to another, or into a file: its vehicle, the rule sets that decided in it and
// its events, as lines of JSON.
//
//	{"transcript":1,"job":"…"}
//	{"vehicle":{…}}
//	{"rule_set":{"hash":"…","files":"…"}}
//	{"event":{"sequence":1,"recorded_at":"…","kind":"booked","version":1,"body":{…},"document":{…}}}
//	{"end":{"events":1}}
//
// It owns the form of the lines and what makes them whole. Bodies and documents are kept as they are stored. It imports no
// contract, database, file or clock.
package transcript
