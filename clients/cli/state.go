package cli

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
)

// stateFolder is where a service remembers rule sets unless it is told another place: the user's data folder of the system
// (on Linux as the XDG base directories have it).
func stateFolder() (string, error) {
	if xdg := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(xdg) {
		return filepath.Join(xdg, "glossladder"), nil
	}
	if local := os.Getenv("LOCALAPPDATA"); runtime.GOOS == "windows" && local != "" {
		return filepath.Join(local, "glossladder"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", errors.New("this user has no home folder to remember rule sets in; name a folder with --state")
	}
	if runtime.GOOS == "darwin" {
		return filepath.Join(home, "Library", "Application Support", "glossladder"), nil
	}
	return filepath.Join(home, ".local", "share", "glossladder"), nil
}
