package app

import (
	"fmt"
	"io/fs"
	"os"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// catalogueFile is the one file of a rule set that is no table of the engine's.
const catalogueFile = "catalogue.yaml"

// LoadRules reads a rule set: the shop's own from a folder, or the shipped one when dir is "". The error is
// [rules.Problems] when the files are at fault: every problem at once.
func LoadRules(dir string) (*rules.Set, error) {
	var files fs.FS = shipped.Files()
	if dir != "" {
		files = os.DirFS(dir)
	}
	schema, err := vocabulary.Schema()
	if err != nil {
		return nil, fmt.Errorf("read the contract: %w", err)
	}
	return rules.Load(files, schema, rules.Document{Name: catalogueFile, Read: catalogue.Read})
}

// rulebook is the rules in force.
type rulebook struct {
	advisor *advisor.Advisor
	shop    *catalogue.Catalogue
}

func (b *rulebook) Advisor() *advisor.Advisor { return b.advisor }

func openRulebook(dir string) (*rulebook, error) {
	set, err := LoadRules(dir)
	if err != nil {
		return nil, err
	}
	document, _ := set.Document(catalogueFile)
	shop, _ := document.(*catalogue.Catalogue)
	adviser, err := advisor.New(set, shop, vocabulary.Learn())
	if err != nil {
		return nil, err
	}
	return &rulebook{advisor: adviser, shop: shop}, nil
}
