package history

import (
	"context"
	"errors"
)

// claim is the bay time that drafts give a job or take from it, seen to be free unless the entry allows an overlap; nil when it
// stays as it is.
//
// The store takes the claim only while the bay's diary is at the revision that was looked at here, in the transaction that stores
// the events. So of two who book the same time at once one is too late, looks again, and is refused or laid elsewhere.
func (b *Book) claim(ctx context.Context, before, after *Job, drafts []Draft, entry Entry) (*Claim, error) {
	claim := Claimed(before, after)
	if claim == nil || claim.Bay == nil || entry.Overlap {
		return claim, nil
	}
	diary, err := b.diaryFor(ctx, claim.Bay, drafts)
	if err != nil {
		return nil, err
	}
	claim.Seen, claim.Unseen = diary.Revision, false
	return claim, diary.freeFor(after.ID, claim.Bay)
}

// diaryFor is the diary that the bay time was laid by, or else as it stands.
func (b *Book) diaryFor(ctx context.Context, bay *Bay, drafts []Draft) (*Diary, error) {
	for _, draft := range drafts {
		if draft.Diary != nil && draft.Diary.Bay == bay.ID {
			return draft.Diary, nil
		}
	}
	return b.store.Diary(ctx, bay.ID, bay.Blocks[0].Start)
}

// raced reports whether somebody else was quicker at a job or a bay.
func raced(err error, what string) bool {
	conflict, ok := errors.AsType[*ConflictError](err)
	return ok && conflict.What == what
}
