package learned

import "fmt"

// PriorError tells which number of a prior cannot be reckoned with.
type PriorError struct {
	Field   string
	Value   float64
	Allowed string
}

func (e *PriorError) Error() string {
	return fmt.Sprintf("prior %s is %v, allowed is %s", e.Field, e.Value, e.Allowed)
}

// RecordError tells which record cannot be reckoned with; places count from 0.
type RecordError struct {
	Group, Record int
	Value         float64
	Allowed       string
}

func (e *RecordError) Error() string {
	return fmt.Sprintf("record %d of group %d is %v, allowed is %s", e.Record+1, e.Group+1, e.Value, e.Allowed)
}
