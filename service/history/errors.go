package history

import (
	"fmt"
	"strings"
)

// NotFoundError tells of something that is not on record.
type NotFoundError struct {
	// What is "vehicle", "job", "event" or "rule set".
	What string
	ID   string
}

func (e *NotFoundError) Error() string {
	return fmt.Sprintf("there is no %s %s on record", e.What, e.ID)
}

// ExistsError tells of an id that is taken.
type ExistsError struct{ What, ID string }

func (e *ExistsError) Error() string {
	return fmt.Sprintf("there is a %s %s already; choose another id, or leave it out and one is made up", e.What, e.ID)
}

// InUseError tells of a vehicle that cannot be removed because jobs refer to it.
type InUseError struct{ Vehicle string }

func (e *InUseError) Error() string {
	return fmt.Sprintf("vehicle %s has jobs, and what they took off it has to stay on record; change its label instead", e.Vehicle)
}

// ConflictError tells that somebody was quicker: what was read before is no longer how it stands.
type ConflictError struct {
	What, ID string
	// Expected is the sequence or revision that the writer knew, Have the one on record; zero if it could not be told.
	Expected, Have int64
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("%s %s has changed since it was read (it was at %d and is at %d); read it again and decide again", e.What, e.ID, e.Expected, e.Have)
}

// RequestReusedError tells of a request id that came before with another content.
type RequestReusedError struct{ ID string }

func (e *RequestReusedError) Error() string {
	return fmt.Sprintf("request id %q was used before for something else; a new request needs an id of its own", e.ID)
}

// StageError tells what a job's stage, or what was recorded in it so far, does not allow.
type StageError struct {
	Job   string
	Stage Stage
	Kind  Kind
	// Says is what stands in the way, with a way out.
	Says string
}

func (e *StageError) Error() string {
	return fmt.Sprintf("job %s is %s: %s", e.Job, e.Stage.Words(), e.Says)
}

// CorrectionError tells of a correction after which something recorded later would make no sense.
type CorrectionError struct {
	// Sequence is the later event, and Says what would be wrong with it.
	Sequence int64
	Says     string
}

func (e *CorrectionError) Error() string {
	return fmt.Sprintf("event %d rests on what would be corrected: %s; correct or withdraw event %d first", e.Sequence, e.Says, e.Sequence)
}

// InputError tells of a field that could never be right.
type InputError struct {
	Field string
	Says  string
}

func (e *InputError) Error() string { return e.Field + " " + e.Says }

// PageTokenError tells of a page token that no list gave, or another list.
type PageTokenError struct{ Says string }

func (e *PageTokenError) Error() string {
	return "page_token " + e.Says + "; leave it out to begin with the first page"
}

// UnreadableError tells of an event that this program cannot read: it was written by a later one, or damaged.
type UnreadableError struct {
	Job      string
	Sequence int64
	Says     string
}

func (e *UnreadableError) Error() string {
	return fmt.Sprintf("event %d of job %s cannot be read: %s", e.Sequence, e.Job, e.Says)
}

// Fault is why a store cannot do its work.
type Fault string

// The faults of stores.
const (
	// Full means that there is no room left.
	Full Fault = "full"
	// ReadOnly means that it may be read and not written.
	ReadOnly Fault = "read-only"
	// Away means that the store cannot be reached or does not answer.
	Away Fault = "away"
	// Damaged means that what is stored is not what was written.
	Damaged Fault = "damaged"
	// Newer means that a later program has changed the shape of what is stored.
	Newer Fault = "newer"
	// Foreign means that it holds something else.
	Foreign Fault = "foreign"
)

// StoreError tells why a store cannot do its work, and what to do. Nothing of the call was stored, unless Unknown.
type StoreError struct {
	Fault Fault
	// Where is the file or the server, without its password.
	Where string
	// Unknown is true when the store was lost before it could say whether it had stored the call. Sent again with its
	// request id, the call does its work once.
	Unknown bool
	Err     error
}

func (e *StoreError) Error() string {
	var s strings.Builder
	fmt.Fprintf(&s, "the record at %s ", e.Where)
	switch e.Fault {
	case Full:
		s.WriteString("has no room left; nothing was recorded; make room and try again")
	case ReadOnly:
		s.WriteString("can be read and not written; nothing was recorded; give it write permission, or name another file")
	case Damaged:
		s.WriteString("is damaged; stop writing to it and bring back a backup")
	case Newer:
		s.WriteString("was changed by a later version of this program; use that version")
	case Foreign:
		s.WriteString("holds something else; name another file")
	default:
		s.WriteString("does not answer")
		if e.Unknown {
			s.WriteString("; whether the last call was recorded is not known: send it again with the same request id, or read the job")
		} else {
			s.WriteString("; nothing was recorded; try again")
		}
	}
	if e.Err != nil {
		fmt.Fprintf(&s, " (%v)", e.Err)
	}
	return s.String()
}

func (e *StoreError) Unwrap() error { return e.Err }
