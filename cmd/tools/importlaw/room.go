package importlaw

import (
	"slices"
	"strings"
)

// Room is a folder with one job, and all folders below it that are not rooms themselves.
type Room struct {
	// Path is the folder, slash-separated and relative to the root of the tree.
	Path string
	// Uses lists the paths of the rooms it may import. A room may always import itself.
	Uses []string
	// Libraries lists the import paths from outside the standard library that it may import; each stands for what is
	// below it too.
	Libraries []string
	// Pure marks a domain room: it computes from what it is given and knows no wire, database, file system, clock,
	// chance or log.
	Pure bool
}

// Law is a whole tree's table of rooms. A folder with Go files that lies in no room is a breach.
type Law struct {
	// Module is the import path of the tree's root.
	Module string
	Rooms  []Room
}

// room returns the innermost room that folder lies in.
func (l Law) room(folder string) (Room, bool) {
	var found Room
	for _, r := range l.Rooms {
		if within(folder, r.Path) && len(r.Path) > len(found.Path) {
			found = r
		}
	}
	return found, found.Path != ""
}

func (r Room) mayUse(other Room) bool {
	return other.Path == r.Path || slices.Contains(r.Uses, other.Path)
}

func (r Room) mayImportLibrary(path string) bool {
	return slices.ContainsFunc(r.Libraries, func(library string) bool { return within(path, library) })
}

// within reports whether path is root or lies below it.
func within(path, root string) bool {
	rest, ok := strings.CutPrefix(path, root)
	return ok && (rest == "" || rest[0] == '/')
}
