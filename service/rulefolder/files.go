package rulefolder

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing/fstest"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Files are the texts of a folder by their names within it, with forward slashes.
type Files map[string][]byte

// Read reads every file of a folder. The rules of package rules about what may stand in one are not looked at.
func Read(folder fs.FS) (Files, error) {
	files := Files{}
	err := fs.WalkDir(folder, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		files[name], err = fs.ReadFile(folder, name)
		return err
	})
	return files, err
}

// Names are the names in order.
func (f Files) Names() []string { return slices.Sorted(maps.Keys(f)) }

// FS is the files as a folder.
func (f Files) FS() fs.FS {
	folder := fstest.MapFS{}
	for name, text := range f {
		folder[name] = &fstest.MapFile{Data: text, Mode: 0o444}
	}
	return folder
}

// Etag stands for all the files: names and bytes.
func (f Files) Etag() string { return rules.HashOf(f) }

// Etag stands for the bytes of one file.
func Etag(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:16])
}

// Differing are the names of the files that are not the same in both, in order.
func (f Files) Differing(other Files) []string {
	var names []string
	for name, text := range f {
		if was, ok := other[name]; !ok || string(was) != string(text) {
			names = append(names, name)
		}
	}
	for name := range other {
		if _, ok := f[name]; !ok {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// Change is what to do with one file. Etag is that of the text that the author of the change had read; empty says that
// there was no such file.
type Change struct {
	Name   string
	Etag   string
	Text   []byte
	Delete bool
}

// Apply gives the files after the changes and leaves f as it is. With a folderEtag, all files must be as they were read.
// Errors are [*NameError], [*ExistsError], [*NoFileError] and [*StaleError].
func (f Files) Apply(changes []Change, folderEtag string) (Files, error) {
	if folderEtag != "" && folderEtag != f.Etag() {
		return nil, &StaleError{Etag: f.Etag()}
	}
	next := maps.Clone(f)
	seen := map[string]bool{}
	for _, c := range changes {
		if err := c.fits(f, seen); err != nil {
			return nil, err
		}
		seen[strings.ToLower(c.Name)] = true
		if c.Delete {
			delete(next, c.Name)
		} else {
			next[c.Name] = c.Text
		}
	}
	return next, nil
}

var nameShape = regexp.MustCompile(`^(cases/)?[A-Za-z0-9_][A-Za-z0-9._-]*$`)

func (c Change) fits(now Files, seen map[string]bool) error {
	text, exists := now[c.Name]
	switch {
	case exists && c.Etag == "":
		return &ExistsError{Name: c.Name, Etag: Etag(text)}
	case exists && c.Etag != Etag(text):
		return &StaleError{Name: c.Name, Etag: Etag(text)}
	case !exists && (c.Etag != "" || c.Delete):
		return &NoFileError{Name: c.Name, Near: strictyaml.Nearest(c.Name, now.Names())}
	case !exists && !wellNamed(c.Name):
		return &NameError{Name: c.Name}
	case seen[strings.ToLower(c.Name)]:
		return &NameError{Name: c.Name, Twice: true}
	}
	for other := range now {
		if !exists && strings.EqualFold(other, c.Name) {
			return &ExistsError{Name: other, Etag: Etag(now[other])}
		}
	}
	return nil
}

// wellNamed says whether a new file may have the name: one that a rule folder has a place for on every system.
func wellNamed(name string) bool {
	end := path.Ext(name)
	return nameShape.MatchString(name) && (end == ".yaml" || end == ".md")
}
