package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/report/words"
)

func language(t *testing.T, tag string) *words.Language {
	t.Helper()
	l, err := words.For(tag)
	require.NoError(t, err)
	return l
}

// keysDeclared reads the names and values of the constants of keys.go.
func keysDeclared(t *testing.T) map[string]words.Key {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "keys.go", nil, 0)
	require.NoError(t, err)
	out := map[string]words.Key{}
	ast.Inspect(file, func(node ast.Node) bool {
		if spec, ok := node.(*ast.ValueSpec); ok {
			value, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
			require.NoError(t, err)
			out[spec.Names[0].Name] = words.Key(value)
		}
		return true
	})
	require.NotEmpty(t, out)
	return out
}

// sources are the files of the package that says the texts, and of this one.
func sources(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	for _, pattern := range []string{"../*.go", "*.go"} {
		names, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, name := range names {
			if strings.HasSuffix(name, "_test.go") || name == "keys.go" || strings.HasPrefix(name, "english") || strings.HasPrefix(name, "german") {
				continue
			}
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			all.Write(text)
		}
	}
	return all.String()
}

func TestEveryLanguageHasEveryTextAndNoOther(t *testing.T) {
	english := words.Texts(language(t, "en"))
	declared := keysDeclared(t)
	for name, key := range declared {
		assert.Contains(t, english, key, "%s has no text", name)
	}
	for _, tag := range words.Locales() {
		texts := words.Texts(language(t, tag))
		for key := range english {
			assert.Contains(t, texts, key, "%s lacks a text", tag)
		}
		for key, text := range texts {
			assert.Contains(t, english, key, "%s has a text that English has not", tag)
			if key != "state.ready" { // nothing to say
				assert.NotEmpty(t, strings.TrimSpace(text), "%s: %s", tag, key)
			}
			if !strings.Contains(string(key), ".") {
				assert.True(t, isDeclared(declared, key), "%s is a text that no constant names", key)
			}
		}
	}
}

func isDeclared(declared map[string]words.Key, key words.Key) bool {
	for _, k := range declared {
		if k == key {
			return true
		}
	}
	return false
}

func TestNoTextIsUnused(t *testing.T) {
	all := sources(t)
	for name := range keysDeclared(t) {
		used := regexp.MustCompile(`\bwords\.` + name + `\b|\bSay\(` + name + `\b`)
		assert.True(t, used.MatchString(all), "%s is said nowhere", name)
	}
	for key := range words.Texts(language(t, "en")) {
		if group, _, ok := strings.Cut(string(key), "."); ok {
			assert.True(t, strings.Contains(all, `"`+group+`",`) || strings.Contains(all, `"`+group+`."`), "words of %s are said nowhere", group)
		}
	}
}

func TestLanguagesAgreeInTheirPlaceholders(t *testing.T) {
	placeholder := regexp.MustCompile(`\{(\w+)[^}]*\}`)
	named := func(text string) []string {
		var out []string
		for _, m := range placeholder.FindAllStringSubmatch(text, -1) {
			if !slices.Contains(out, m[1]) {
				out = append(out, m[1])
			}
		}
		slices.Sort(out)
		return out
	}
	german := words.Texts(language(t, "de"))
	for key, text := range words.Texts(language(t, "en")) {
		assert.Equal(t, named(text), named(german[key]), "%s: %q and %q", key, text, german[key])
	}
}

var placeholders = regexp.MustCompile(`\{[^}]*\}`)

func TestGermanIsTranslated(t *testing.T) {
	german, same := words.Texts(language(t, "de")), 0
	for key, text := range words.Texts(language(t, "en")) {
		if text == german[key] && len(placeholders.ReplaceAllString(text, "")) > 12 {
			same++
			t.Logf("%s is %q in both", key, text)
		}
	}
	assert.Zero(t, same, "long texts that are the same in both languages")
}

func TestUnknownLocalesAreNamedWithAWayOut(t *testing.T) {
	_, err := words.For("fr-CA")
	var unknown *words.LocaleError
	require.ErrorAs(t, err, &unknown)
	assert.ErrorContains(t, err, "there are en, en-GB")
	for asked, got := range map[string]string{"": "en", "EN_us": "en-US", "de-LI": "de", "en-AU": "en"} {
		assert.Equal(t, got, language(t, asked).Tag(), "asked for %q", asked)
	}
}
