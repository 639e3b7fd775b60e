// Package film turns film-thickness readings into what may still be polished away.
//
// It owns the way from readings to spot means, from spot means to the panel's lowest film with its uncertainty, from
// there to usable film as a lower bound, and from usable film to what a ladder leaves. It knows what a gauge can and
// cannot see. It does not own judgement: how thin is thin, how much may go and how much must stay come in as a
// [Policy] from the rule files, and so does what a step is expected to take, as a [Removal].
//
// Wherever something is not known exactly the package errs toward leaving film on the panel, and says so beside the
// formula. The package imports no proto, SQL, HTTP, os, clock or log, keeps no state, and every function may be called
// from several goroutines at once.
package film
