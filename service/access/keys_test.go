package access_test

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/access"
)

var morning = time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)

func TestWhatIsKeptOfAKeyIsNotTheKey(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "access")
	folder := access.At(dir)
	key, text, err := folder.Add(t.Context(), "  office laptop ", morning)
	require.NoError(t, err)
	assert.Equal(t, "office laptop", key.Name)
	secret := strings.Split(text, "_")[2]
	assert.GreaterOrEqual(t, len(secret), 26, "130 bits in base 32")
	for _, name := range []string{"keys.json", "private-key.pem"} {
		path := filepath.Join(dir, name)
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.NotContains(t, strings.ToLower(string(content)), secret, name)
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), name)
	}
	info, err := os.Stat(dir)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o700), info.Mode().Perm())
}

func TestKeysAreListedAndRevoked(t *testing.T) {
	folder := access.At(t.TempDir())
	opens, err := folder.Opens(morning)
	require.NoError(t, err)
	assert.False(t, opens, "nobody has a key")
	first, one, err := folder.Add(t.Context(), "one", morning)
	require.NoError(t, err)
	second, two, err := folder.Add(t.Context(), "two", morning.Add(time.Hour))
	require.NoError(t, err)
	assert.NotEqual(t, one, two)
	assert.Equal(t, one[strings.LastIndex(one, "_"):], two[strings.LastIndex(two, "_"):], "both are for this service")

	all, err := folder.Keys()
	require.NoError(t, err)
	assert.Equal(t, []access.Key{first, second}, all)
	gone, err := folder.Revoke(t.Context(), first.ID)
	require.NoError(t, err)
	assert.Equal(t, first, gone)
	all, err = folder.Keys()
	require.NoError(t, err)
	assert.Equal(t, []access.Key{second}, all)
	_, err = folder.Revoke(t.Context(), first.ID)
	var none *access.NoKeyError
	require.ErrorAs(t, err, &none)
	assert.Equal(t, first.ID, none.ID)
}

func TestANameSaysWhoseAKeyIs(t *testing.T) {
	folder := access.At(t.TempDir())
	for name, want := range map[string]string{"": "needs a name", " ": "needs a name", "a\x1b[31m": "do not print", strings.Repeat("ä", 61): "at most 60"} {
		_, _, err := folder.Add(t.Context(), name, morning)
		assert.ErrorContains(t, err, want, "%q", name)
	}
	_, _, err := folder.Add(t.Context(), strings.Repeat("ä", 60), morning)
	require.NoError(t, err)
}

func TestACodeIsGoodOnceAndForTenMinutes(t *testing.T) {
	for name, row := range map[string]struct {
		typed func(code string) string
		after time.Duration
		good  bool
	}{
		"as shown":                       {func(c string) string { return c }, 0, true},
		"in small letters, with a blank": {func(c string) string { return " " + strings.ToLower(strings.Replace(c, "-", " ", 1)) }, 0, true},
		"without the hyphen":             {func(c string) string { return strings.Replace(c, "-", "", 1) }, 0, true},
		"with look-alikes":               {func(c string) string { return strings.NewReplacer("0", "o", "1", "l").Replace(c) }, 0, true},
		"in the last second":             {func(c string) string { return c }, 10*time.Minute - time.Second, true},
		"when it has run out":            {func(c string) string { return c }, 10 * time.Minute, false},
		"another":                        {func(string) string { return "0000-0000" }, 0, false},
		"none":                           {func(string) string { return "" }, 0, false},
	} {
		t.Run(name, func(t *testing.T) {
			folder := access.At(t.TempDir())
			pairing, err := folder.OpenPairing(t.Context(), morning)
			require.NoError(t, err)
			assert.Regexp(t, `^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$`, pairing.Code)
			opens, err := folder.Opens(morning)
			require.NoError(t, err)
			assert.True(t, opens, "a phone could pair")
			key, text, err := folder.Pair(t.Context(), row.typed(pairing.Code), "phone", morning.Add(row.after))
			if !row.good {
				require.ErrorIs(t, err, access.ErrWrongCode)
				assert.Empty(t, text)
				return
			}
			require.NoError(t, err)
			assert.Contains(t, text, key.ID)
			_, _, err = folder.Pair(t.Context(), pairing.Code, "another phone", morning.Add(row.after))
			require.ErrorIs(t, err, access.ErrWrongCode, "a second time")
			all, err := folder.Keys()
			require.NoError(t, err)
			assert.Len(t, all, 1)
		})
	}
}

func TestANewCodeEndsTheOneBefore(t *testing.T) {
	folder := access.At(t.TempDir())
	before, err := folder.OpenPairing(t.Context(), morning)
	require.NoError(t, err)
	after, err := folder.OpenPairing(t.Context(), morning)
	require.NoError(t, err)
	_, _, err = folder.Pair(t.Context(), before.Code, "phone", morning)
	require.ErrorIs(t, err, access.ErrWrongCode)
	_, _, err = folder.Pair(t.Context(), after.Code, "phone", morning)
	require.NoError(t, err)
}

func TestOfManyWhoSayTheSameCodeOneGetsAKey(t *testing.T) {
	folder := access.At(t.TempDir())
	pairing, err := folder.OpenPairing(t.Context(), morning)
	require.NoError(t, err)
	var got atomic.Int32
	var wait sync.WaitGroup
	for range 16 {
		wait.Go(func() {
			if _, _, err := folder.Pair(t.Context(), pairing.Code, "phone", morning); err == nil {
				got.Add(1)
			} else {
				assert.ErrorIs(t, err, access.ErrWrongCode)
			}
		})
	}
	wait.Wait()
	assert.Equal(t, int32(1), got.Load())
}

func TestAFileOfKeysThatIsBrokenSaysSo(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "keys.json"), []byte("{"), 0o600))
	folder := access.At(dir)
	_, err := folder.Keys()
	require.ErrorContains(t, err, "put it aside")
	_, _, err = folder.Add(t.Context(), "one", morning)
	require.ErrorContains(t, err, "put it aside", "and is not written over")
}
