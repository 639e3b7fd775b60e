package app

import (
	"fmt"
	"io/fs"
	"sync"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// catalogueFile is the one file of a rule set that is no table of the engine's.
const catalogueFile = "catalogue.yaml"

// LoadRules reads a rule set: the shop's own from a folder, or the shipped one when dir is "". The error is
// [rules.Problems] when the files are at fault: every problem at once.
func LoadRules(dir string) (*rules.Set, error) { return loadFiles(rulesIn(dir)) }

func rulesIn(dir string) fs.FS {
	if dir == "" {
		return shipped.Files()
	}
	return rulefolder.Folder(dir).FS()
}

func loadFiles(files fs.FS) (*rules.Set, error) {
	schema, err := vocabulary.Schema()
	if err != nil {
		return nil, fmt.Errorf("read the contract: %w", err)
	}
	set, err := rules.Load(files, schema, rules.Document{Name: catalogueFile, Read: catalogue.Knowing(time.LoadLocation)})
	if err != nil {
		return nil, err
	}
	if err := keepsPromises(set); err != nil {
		return nil, err
	}
	return set, nil
}

// compileIn makes the rules of a folder ready to decide, or those as shipped when dir is "".
func compileIn(dir string) (*rpc.Rules, error) {
	if dir != "" {
		return compile(rulesIn(dir))
	}
	shared, err := asShipped()
	if err != nil {
		return nil, err
	}
	own := *shared // each service adds what its own shop has learned
	return &own, nil
}

// asShipped compiles the rules that are part of the program once, for every service that runs in it.
var asShipped = sync.OnceValues(func() (*rpc.Rules, error) { return compile(rulesIn("")) })

// compile makes a rule set ready to decide. Everything that a start would refuse is refused here.
func compile(files fs.FS) (*rpc.Rules, error) {
	set, err := loadFiles(files)
	if err != nil {
		return nil, err
	}
	document, _ := set.Document(catalogueFile)
	shop, ok := document.(*catalogue.Catalogue)
	if !ok {
		return nil, fmt.Errorf("%s was not read as a catalogue", catalogueFile)
	}
	adviser, err := advisor.New(set, shop)
	if err != nil {
		return nil, err
	}
	return &rpc.Rules{Advisor: adviser, Instruments: instrumentsOf(shop), Shop: shop}, nil
}
