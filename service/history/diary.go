package history

import "time"

// Held is a stretch of a bay that a job holds.
type Held struct {
	Job        string
	Start, End time.Time
}

// Diary is what jobs hold of a bay.
type Diary struct {
	Bay string
	// Revision rises with every booking in the bay; 0: there was none yet.
	Revision int64
	// Held are the stretches by start, then by job. They may overlap where somebody allowed it.
	Held []Held
}

// Others are the stretches that other jobs than this one hold.
func (d *Diary) Others(job string) []Held {
	var out []Held
	for _, h := range d.Held {
		if h.Job != job {
			out = append(out, h)
		}
	}
	return out
}

// Claim is the bay time that a job holds from a batch on.
type Claim struct {
	// Bay is the time. Nil: none any more.
	Bay *Bay
	// Seen is the revision of the bay's diary by which the time was found to be free.
	Seen int64
	// Unseen books whatever others hold.
	Unseen bool
}

// holds is the bay time that the job holds; nil for none. One that was cancelled holds none.
func (j *Job) holds() *Bay {
	if j.Stage == StageCancelled {
		return nil
	}
	return j.Details.Bay
}

// Claimed is what a job claims that was like before; nil when its bay time stays as it is. The claim is made unseen: whoever cares
// for what others hold looks first and says by which revision.
func Claimed(before, after *Job) *Claim {
	if before.holds().same(after.holds()) {
		return nil
	}
	return &Claim{Bay: after.holds(), Unseen: true}
}
