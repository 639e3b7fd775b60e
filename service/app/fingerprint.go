package app

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
)

// fingerprint is equal for two looks at a folder that saw the same names and bytes.
func fingerprint(files fs.FS) (string, error) {
	hash := sha256.New()
	err := fs.WalkDir(files, ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(files, path)
		fmt.Fprintf(hash, "%d %s %d\n", len(path), path, len(text))
		hash.Write(text)
		return err
	})
	return hex.EncodeToString(hash.Sum(nil)), err
}
