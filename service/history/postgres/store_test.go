//go:build unix

package postgres_test

import (
	"testing"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/storetest"
)

func TestStoreKeepsTheContract(t *testing.T) {
	storetest.Run(t, func(t *testing.T) history.Store { return open(t) })
}
