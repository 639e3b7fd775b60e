package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"

	"github.com/glossladder/glossladder/clients/cli/intake"
)

// sourcesFile is where the mapping of each gauge is remembered: a setting of whoever imports, so that it stands with the user and
// not with the jobs.
func sourcesFile() (string, error) {
	folder, err := stateFolder()
	if err != nil {
		return "", errors.New("this user has no home folder to remember gauges in; leave --source out")
	}
	return filepath.Join(folder, "sources.json"), nil
}

func readSources() (map[string]intake.Mapping, error) {
	file, err := sourcesFile()
	if err != nil {
		return nil, err
	}
	text, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return map[string]intake.Mapping{}, nil
	}
	if err != nil {
		return nil, err
	}
	all := map[string]intake.Mapping{}
	if err := json.Unmarshal(text, &all); err != nil {
		return nil, fmt.Errorf("%s: %w; mend the file, or remove it to begin anew", file, err)
	}
	return all, nil
}

// writeSources puts a whole new file in the place of the old one.
func writeSources(all map[string]intake.Mapping) error {
	file, err := sourcesFile()
	if err != nil {
		return err
	}
	text, err := json.MarshalIndent(all, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return err
	}
	part, err := os.CreateTemp(filepath.Dir(file), "sources-*")
	if err != nil {
		return err
	}
	_, err = part.Write(append(text, '\n'))
	err = errors.Join(err, part.Sync(), part.Close())
	if err == nil {
		err = os.Rename(part.Name(), file)
	}
	if err != nil {
		return errors.Join(fmt.Errorf("remember the gauge: %w", err), os.Remove(part.Name()))
	}
	return nil
}

// rememberedSource is how a gauge's files are read; nothing for a gauge without a name or without a past.
func rememberedSource(name string) (intake.Mapping, error) {
	if name == "" {
		return intake.Mapping{}, nil
	}
	all, err := readSources()
	return all[name], err
}

// rememberSource keeps how a gauge's files are read, if that is news.
func rememberSource(name string, before, now intake.Mapping) error {
	if name == "" || reflect.DeepEqual(before, now) {
		return nil
	}
	all, err := readSources()
	if err != nil {
		return err
	}
	all[name] = now
	return writeSources(all)
}
