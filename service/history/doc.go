// Package history keeps what lasts: vehicles that come back, jobs that go on for days, and every reading, trial and decision
// in them.
//
// A job is its events. They are only ever added, in an order of their own that no clock can disturb; a mistake is mended by a
// correction, which is an event too. [Replay] turns the events into the job as it stands; [Job.Allows] says what may come next;
// [Life] adds up what all visits together took off a vehicle. [Book] is how others record: it reads, asks what is allowed and
// appends, so that two at the same job never overwrite each other and a repeated request records nothing twice.
//
// The package owns the shape of what is stored and the interface [Store] to whatever stores it; sqlite and postgres under it
// are the two that do, and storetest holds both to the same contract. The package imports no contract, SQL, network, os, clock
// or log: the time of recording is passed in. Messages of the contract travel through it as documents that it does not read,
// so that nothing measured is lost, beside the numbers that it does.
package history
