// Package storetest is the contract of a store as tests: what holds for one holds for the other.
//
// Each store's own tests run [Run] on a fresh store, and add what only that store can suffer. The package is imported by tests
// only.
package storetest

import (
	"testing"

	"github.com/glossladder/glossladder/service/history"
)

// Open gives a fresh, empty store; the test closes it.
type Open func(t *testing.T) history.Store

// Run runs the whole contract.
func Run(t *testing.T, open Open) {
	for name, test := range map[string]func(*testing.T, history.Store){
		"a vehicle comes back as it was saved":                     vehicleComesBack,
		"a vehicle is changed only at the revision expected":       vehicleRevisions,
		"a vehicle with jobs stays":                                vehicleWithJobsStays,
		"vehicles are in order of their labels, byte by byte":      vehiclesInOrder,
		"a prefix finds vehicles in capitals or not":               vehiclePrefix,
		"pages of vehicles miss none and repeat none":              vehiclePages,
		"an event comes back as it was stored":                     eventComesBack,
		"every kind of body comes back":                            everyBodyComesBack,
		"events are appended only at the sequence expected":        eventSequence,
		"a batch is stored whole or not at all":                    batchIsWhole,
		"a job needs its vehicle":                                  jobNeedsVehicle,
		"a repeated request does nothing":                          requestRepeated,
		"a request id with another content is refused":             requestReused,
		"a request that failed may come again":                     requestAfterFailure,
		"ids differ by letter case and trailing space":             idsAreExact,
		"jobs are listed newest first":                             jobsNewestFirst,
		"pages of jobs miss none while jobs are added":             jobPages,
		"jobs of some stages and of one vehicle":                   jobFilters,
		"jobs are listed with what their vehicles are called now":  jobsByVehicleLabel,
		"events after a sequence, so many at a time":               eventPages,
		"a scan gives every event of the kinds asked for":          scanKinds,
		"a scan may be left early and resumed":                     scanLeftEarly,
		"what a look back needs comes in the order of a scan":      tracesInOrder,
		"a look back may be left early, and ends with its context": tracesLeftEarly,
		"a lean scan leaves out the sheets of decisions alone":     scanLean,
		"fifty writers at one job lose nothing":                    fiftyWriters,
		"fifty writers with one request do it once":                fiftyRepeats,
		"readers see whole batches while others write":             readersSeeWholeBatches,
		"a rule set is kept as it was first":                       ruleSetKept,
		"who gives up before the turn has written nothing":         givenUp,
		"what the book records, the store keeps":                   bookOnStore,
		"the book tries without recording, and once":               bookTriesAndRepeats,
		"the clock may be set back":                                clockSetBack,
		"film taken adds up over a vehicle's visits":               lifeOnStore,
		"a listener comes back as it was saved":                    listenerComesBack,
		"a listener is not overwritten unseen":                     listenerIsNotOverwritten,
		"what is owed comes in pages":                              owedComesInPages,
		"listeners are owed what they are to be told":              eventsAreOwed,
		"tellings are in order and lent to one at a time":          toldInOrder,
		"several who ask at once get each telling once":            lentOnce,
		"links to reports come back as they were saved":            reportLinksComeBack,
		"links to reports end at their time, or when revoked":      reportLinksEnd,
		"a bay's diary is what jobs hold of it":                    diaryIsWhatJobsHold,
		"bay time is claimed only at the revision seen":            claimsNeedTheRevisionSeen,
		"the book refuses bay time that others hold":               bookRefusesWhatIsTaken,
		"of many who book one time at once one gets it":            oneOfManyGetsTheTime,
		"work of many laid into a bay at once lies apart":          manyAreLaidApart,
		"the outside of a job is what its events make of it":       outsideFitsEvents,
	} {
		t.Run(name, func(t *testing.T) {
			store := open(t)
			test(t, store)
		})
	}
}
