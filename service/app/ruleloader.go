package app

import (
	"fmt"
	"io/fs"
	"maps"
	"regexp"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// ruleLoader makes rule sets of files that are not the shop's folder.
type ruleLoader struct{}

// LoadSent loads a set as strictly as one that comes into force.
func (ruleLoader) LoadSent(files map[string]string) (*rules.Set, error) {
	folder, err := folderOf(files)
	if err != nil {
		return nil, err
	}
	return loadFiles(folder.FS())
}

func folderOf(files map[string]string) (rulefolder.Files, error) {
	folder := rulefolder.Files{}
	for name, text := range files {
		if !fs.ValidPath(name) {
			return nil, rules.Problems{{File: name, Message: "this is no name of a file", Hint: "a name is start.yaml or cases/start.yaml"}}
		}
		folder[name] = []byte(text)
	}
	return folder, nil
}

// tableName finds which table a file holds.
var tableName = regexp.MustCompile(`(?m)^table:[ \t]*"?([a-z0-9-]+)"?`)

// LoadKept loads a set that decided once. Its worked cases and promises are left out, since they decide nothing and may be behind
// the program; tables that it did not have yet are taken from the shipped rules: nobody asked them then.
func (ruleLoader) LoadKept(files map[string][]byte) (*rules.Set, error) {
	schema, err := vocabulary.Schema()
	if err != nil {
		return nil, fmt.Errorf("read the contract: %w", err)
	}
	folder, has := rulefolder.Files{}, map[string]bool{}
	for name, text := range maps.All(files) {
		if strings.HasPrefix(name, "cases/") || name == promise.File {
			continue
		}
		folder[name] = text
		if found := tableName.FindSubmatch(text); found != nil {
			has[string(found[1])] = true
		}
	}
	for _, table := range schema.Results() {
		name := table.Table + ".yaml"
		if has[table.Table] || folder[name] != nil {
			continue
		}
		if folder[name], err = fs.ReadFile(shipped.Files(), name); err != nil {
			return nil, fmt.Errorf("read the shipped rules: %w", err)
		}
	}
	return rules.Load(folder.FS(), schema, rules.Document{Name: catalogueFile, Read: catalogue.Read})
}

// Keeps says whether a set keeps the safety promises.
func (ruleLoader) Keeps(set *rules.Set) bool { return keepsPromises(set) == nil }
