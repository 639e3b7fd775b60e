package cli

import (
	"fmt"
	"strconv"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
)

// takenIn tells by the clock of a zone that another job holds the bay, and what to do; any other error stays as it is.
func takenIn(err error, in *time.Location) error {
	st, ok := statusIn(err)
	if !ok {
		return err
	}
	for _, detail := range st.Details() {
		why, _ := detail.(*errdetails.ErrorInfo)
		if why.GetReason() != "BAY_TAKEN" {
			continue
		}
		held := why.GetMetadata()
		more := ""
		if n, _ := strconv.Atoi(held["in_the_way"]); n > 1 {
			more = fmt.Sprintf(", and %d more after it", n-1)
		}
		return fmt.Errorf("%s is taken: job %s holds it from %s to %s%s. It is free for this from %s on, opening hours left aside. "+
			"Choose another --start or --bay, or --allow-overlap", idOf(held["bay"]), idOf(held["job"]),
			clockIn(held["start_time"], in), clockIn(held["end_time"], in), more, clockIn(held["free_time"], in))
	}
	return err
}

func clockIn(text string, in *time.Location) string {
	at, err := time.Parse(time.RFC3339Nano, text)
	if err != nil {
		return text
	}
	return at.In(in).Format("Mon 2006-01-02 15:04")
}
