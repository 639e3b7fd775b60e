package intake_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/clients/cli/intake"
)

func TestTheShopsOwnFactsKeepTheirKindsAndPlaces(t *testing.T) {
	request, places, problems := intake.Recommend(intake.Source{Name: "job.yaml", Text: []byte(`shop: {fleet: true, waxed_days: 3.5, contract: yearly, badge: "7"}
panels:
  - {id: bonnet, shop: {fleet: false}}
`)}, intake.Bare{})
	require.Empty(t, problems)
	own := request.GetInspection().GetShop()
	assert.Equal(t, map[string]any{"fleet": true, "waxed_days": 3.5, "contract": "yearly", "badge": "7"}, map[string]any{
		"fleet": own["fleet"].AsInterface(), "waxed_days": own["waxed_days"].AsInterface(), "contract": own["contract"].AsInterface(), "badge": own["badge"].AsInterface(),
	})
	assert.Equal(t, false, request.GetInspection().GetPanels()[0].GetShop()["fleet"].AsInterface())
	at, exact, _ := places.Of("inspection.panels[0].shop[fleet]")
	assert.True(t, exact)
	assert.Equal(t, 3, at.Line)
	_, _, problems = intake.Recommend(intake.Source{Name: "job.yaml", Text: []byte("shop: [fleet]\npanels: [{id: bonnet, shop: {fleet: [1]}}]\n")}, intake.Bare{})
	require.Len(t, problems, 2)
	assert.Contains(t, problems[0].Error(), "job.yaml:1:7: shop is a map, not a list; write a name and a value on each line")
	assert.Contains(t, problems[1].Error(), "fleet is a single value, not a list")
}
