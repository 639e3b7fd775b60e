package cli

import (
	"fmt"
	"os"
	"strings"

	"google.golang.org/grpc/codes"
)

// jobOf tells a job from a file where a command takes either. Jobs/ and an id is always a job. What looks like an id is one too, for
// ids have no dot and no slash, unless there is a file of the name: then somebody has to say which is meant. All else is a file.
func jobOf(word string) (job string, err error) {
	id, named := strings.CutPrefix(word, "jobs/")
	switch {
	case !isID(id):
		return "", nil
	case named:
		return word, nil
	}
	if _, missing := os.Stat(word); missing == nil {
		return "", &usageError{fmt.Sprintf("%s is a file here, and could be a job too: write ./%s for the file, jobs/%s for the job", word, word, word)}
	}
	return "jobs/" + word, nil
}

// isID reports whether a word is of small letters, digits and single hyphens, as the ids of jobs are.
func isID(word string) bool {
	for part := range strings.SplitSeq(word, "-") {
		if part == "" || strings.Trim(part, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// neither says of a word that is no job on record that it is no file either, for what was meant is not known.
func (p *program) neither(err error, word string) error {
	st, ok := statusIn(err)
	if !ok || st.Code() != codes.NotFound {
		return err
	}
	if strings.HasPrefix(word, "jobs/") {
		return p.unknownTo(err, "glossladder job list")
	}
	return fmt.Errorf("%s, and no file %s here; see glossladder job list", p.statusWords(st), word)
}
