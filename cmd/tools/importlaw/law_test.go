package importlaw_test

import (
	"io/fs"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/importlaw"
)

func TestSourceTreeKeepsTheLaw(t *testing.T) {
	tree := os.DirFS("../../..")
	_, err := fs.Stat(tree, "go.mod")
	require.NoError(t, err, "the test must look at the root of the repository")

	breaches, err := importlaw.Project().Check(tree)
	require.NoError(t, err)
	for _, b := range breaches {
		t.Error(b)
	}
}

func TestLawOfTheProjectAgreesWithItself(t *testing.T) {
	rooms := map[string]importlaw.Room{}
	for _, r := range importlaw.Project().Rooms {
		require.NotContains(t, rooms, r.Path, "a room has one row")
		rooms[r.Path] = r
	}
	for _, r := range rooms {
		for _, used := range r.Uses {
			target, ok := rooms[used]
			if assert.True(t, ok, "%s uses %s, which is no room", r.Path, used) && r.Pure {
				assert.True(t, target.Pure, "%s is a domain room and uses %s, which is none", r.Path, used)
			}
		}
		assert.False(t, reaches(rooms, r.Path, r.Path, map[string]bool{}), "arrows run in a circle from %s", r.Path)
	}
}

// reaches reports whether a walk along at least one arrow leads from one room to another.
func reaches(rooms map[string]importlaw.Room, from, to string, seen map[string]bool) bool {
	for _, next := range rooms[from].Uses {
		if next == to {
			return true
		}
		if !seen[next] {
			seen[next] = true
			if reaches(rooms, next, to, seen) {
				return true
			}
		}
	}
	return false
}
