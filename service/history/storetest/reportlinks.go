package storetest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// aLink is a link made at one minute that expires at another.
func aLink(id, job string, made, expires int) history.ReportLink {
	return history.ReportLink{
		ID: id, Job: job, TokenHash: "hash-of-" + id, CreatedAt: minutes(made), ExpiresAt: minutes(expires),
		Setting: history.ReportSetting{Locale: "de-CH", Paper: "a4", Heading: `the "shop" <& co>`, TimeZone: "Europe/Zurich"},
	}
}

func reportLinksComeBack(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	bookJob(t, store, "spring", minutes(0), nil)
	require.NoError(t, store.AddReportLink(t.Context(), aLink("a", "spring", 0, 60)))
	require.NoError(t, store.AddReportLink(t.Context(), aLink("b", "spring", 1, 30)))

	var taken *history.ExistsError
	require.ErrorAs(t, store.AddReportLink(t.Context(), aLink("a", "spring", 2, 60)), &taken)
	sameToken := aLink("c", "spring", 2, 60)
	sameToken.TokenHash = "hash-of-a"
	require.ErrorAs(t, store.AddReportLink(t.Context(), sameToken), &taken)
	var missing *history.NotFoundError
	require.ErrorAs(t, store.AddReportLink(t.Context(), aLink("d", "no-such-job", 2, 60)), &missing)
	assert.Equal(t, "job", missing.What)

	found, err := store.ReportLinkOf(t.Context(), "hash-of-a", minutes(59))
	require.NoError(t, err)
	assert.Equal(t, aLink("a", "spring", 0, 60), found)
	for _, other := range []string{"hash-of-A", "hash-of-a ", ""} {
		_, err := store.ReportLinkOf(t.Context(), other, minutes(3))
		require.ErrorAs(t, err, &missing, "hash %q", other)
	}

	all, err := store.ReportLinksTo(t.Context(), "spring", minutes(3), 10)
	require.NoError(t, err)
	assert.Equal(t, []history.ReportLink{aLink("b", "spring", 1, 30), aLink("a", "spring", 0, 60)}, all, "the newest first")
}

func reportLinksEnd(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	bookJob(t, store, "spring", minutes(0), nil)
	require.NoError(t, store.AddReportLink(t.Context(), aLink("short", "spring", 0, 10)))
	require.NoError(t, store.AddReportLink(t.Context(), aLink("long", "spring", 0, 90)))
	var missing *history.NotFoundError
	_, err := store.ReportLinkOf(t.Context(), "hash-of-short", minutes(9))
	require.NoError(t, err)
	_, err = store.ReportLinkOf(t.Context(), "hash-of-short", minutes(10))
	require.ErrorAs(t, err, &missing, "at its time it has expired")
	left, err := store.ReportLinksTo(t.Context(), "spring", minutes(10), 10)
	require.NoError(t, err)
	assert.Equal(t, []history.ReportLink{aLink("long", "spring", 0, 90)}, left)

	require.NoError(t, store.RemoveReportLink(t.Context(), "long"))
	_, err = store.ReportLinkOf(t.Context(), "hash-of-long", minutes(1))
	require.ErrorAs(t, err, &missing, "it was revoked")
	require.ErrorAs(t, store.RemoveReportLink(t.Context(), "long"), &missing)
}
