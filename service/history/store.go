package history

import (
	"context"
	"iter"
	"time"
)

// Store keeps vehicles and events. Whatever a call changes is on disk when the call returns without an error, and nothing of
// it is on record when it returns an error, unless that is a [*StoreError] that says Unknown. A store may be used by several
// goroutines at once, and several programs may use the same one.
//
// A store checks sequences, revisions, request ids and that a job has its vehicle. What a job's stage allows it does not know:
// that is [Book]'s to ask.
type Store interface {
	Vehicles
	Jobs
	Archive
	Outbox
	ReportLinks
	Close() error
}

// Vehicles are the records of vehicles.
type Vehicles interface {
	// SaveVehicle stores v as it is, over the revision expected; expected 0 makes a new record. A request that was done
	// before changes nothing and gives its receipt. Errors: [*ExistsError], [*NotFoundError], [*ConflictError],
	// [*RequestReusedError], [*StoreError].
	SaveVehicle(ctx context.Context, v Vehicle, expected int64, by Request) (earlier *Receipt, err error)
	// DeleteVehicle removes a vehicle without jobs, at the revision expected; expected 0 removes any. Errors:
	// [*NotFoundError], [*ConflictError], [*InUseError], [*StoreError].
	DeleteVehicle(ctx context.Context, id string, expected int64) error
	// Vehicle gives one, or a [*NotFoundError].
	Vehicle(ctx context.Context, id string) (Vehicle, error)
	// ListVehicles gives up to query.Limit vehicles in the order of [VehicleKey].
	ListVehicles(ctx context.Context, query VehicleQuery) ([]Vehicle, error)
}

// Jobs are jobs and their events.
type Jobs interface {
	// Append stores a batch, all or nothing. A request that was done before changes nothing and gives its receipt. Errors:
	// [*ExistsError], [*NotFoundError] of the job or its vehicle, [*ConflictError], [*RequestReusedError], [*StoreError].
	Append(ctx context.Context, b Batch) (earlier *Receipt, err error)
	// Receipt finds what a request did; nil when it never came.
	Receipt(ctx context.Context, scope, id string) (*Receipt, error)
	// Job gives the outside of a job, or a [*NotFoundError].
	Job(ctx context.Context, id string) (Summary, error)
	// ListJobs gives up to query.Limit jobs, the newest first.
	ListJobs(ctx context.Context, query JobQuery) ([]Listed, error)
	// Events gives up to limit events of a job after a sequence, in order. A job without events is a [*NotFoundError];
	// an event that cannot be read a [*UnreadableError].
	Events(ctx context.Context, job string, after int64, limit int) ([]Event, error)
	// Diary gives what jobs hold of a bay and ends after since. A bay that nothing was ever booked in is empty.
	Diary(ctx context.Context, bay string, since time.Time) (*Diary, error)
	// Scan gives every event of the kinds asked for, job by job in order of id and sequence, until the loop ends or an
	// error comes.
	Scan(ctx context.Context, query ScanQuery) iter.Seq2[Event, error]
	// Traces gives what a look back needs of every event that has a trace, in the order of Scan. The caller decodes, so that
	// several can. An event that was stored by a program that knew no traces comes as it is stored.
	Traces(ctx context.Context) iter.Seq2[Traced, error]
}

// Archive keeps rule sets by their content hash, so that a decision can be explained by the rules that made it.
type Archive interface {
	// KeepRuleSet stores the files of a set, as one document. A set that is kept already stays as it is.
	KeepRuleSet(ctx context.Context, hash string, files []byte, at time.Time) error
	// RuleSet gives the files of a set, or a [*NotFoundError].
	RuleSet(ctx context.Context, hash string) ([]byte, error)
}

// Request is what makes a repeated call safe. Without an ID every call is a new one.
type Request struct {
	// Scope is what the id is unique in: a job, a vehicle, or the collection that something is added to.
	Scope string
	ID    string
	// Print is a hash of the content; the same id with another print is a [*RequestReusedError].
	Print string
}

// Receipt is what a request did.
type Receipt struct {
	Request
	// Target is the id of the job or vehicle that it made or changed.
	Target string
	// First and Last are the sequences of the events that it appended, or the revision that it made.
	First, Last int64
}

// Batch is events to append to one job, all or nothing.
type Batch struct {
	// Expected is the sequence of the last event that the writer knows; 0 makes the job.
	Expected int64
	// Events follow on Expected without a gap, all of the job that After names. There is one at least.
	Events []Event
	// After is the outside of the job after them.
	After Summary
	// Claim is the bay time that the job holds after them. Nil: it stays as it is.
	Claim   *Claim
	Request Request
}

// VehicleKey is a place in the list of vehicles, which is in order of LabelKey, then of ID, byte by byte.
type VehicleKey struct{ LabelKey, ID string }

// VehicleQuery asks for vehicles.
type VehicleQuery struct {
	// LabelPrefix is how the [LabelKey] begins, made by [LabelPrefix]. Empty: all.
	LabelPrefix string
	// After is the place of the last vehicle seen. Nil: from the first.
	After *VehicleKey
	Limit int
}

// JobKey is a place in the list of jobs, which is in falling order of CreatedAt, then of ID.
type JobKey struct {
	CreatedAt time.Time
	ID        string
}

// JobQuery asks for jobs.
type JobQuery struct {
	// Vehicle is the vehicle's id. Empty: all.
	Vehicle string
	// Stages are those to show. Empty: all.
	Stages []Stage
	// After is the place of the last job seen. Nil: from the newest.
	After *JobKey
	Limit int
}

// ScanQuery asks for events of all jobs.
type ScanQuery struct {
	// Kinds are those to give. Empty: all.
	Kinds []Kind
	// Documents says whether events come with their documents, which are most of what is stored.
	Documents bool
	// Lean leaves the sheets of decisions out, which are most of what is stored of them.
	Lean bool
	// AfterJob and AfterSequence are the place of the last event seen. Empty: from the first.
	AfterJob      string
	AfterSequence int64
}
