package catalogue_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
)

func TestLimits(t *testing.T) {
	european := catalogue.Limits{
		Vibration: catalogue.VibrationLimits{ActionMs2: 2.5, LimitMs2: 5},
		Noise:     catalogue.NoiseLimits{LowerActionDba: 80, UpperActionDba: 85, LimitDba: 87, ExchangeDB: 3},
	}
	other := european
	other.Noise = catalogue.NoiseLimits{LowerActionDba: 85, UpperActionDba: 90, LimitDba: 90, ExchangeDB: 5, ThresholdDba: 80}
	stricter := european
	stricter.Vibration = catalogue.VibrationLimits{ActionMs2: 2, LimitMs2: 2}
	for _, row := range []struct {
		name, section string
		want          catalogue.Limits
	}{
		{"nothing said", "", european},
		{"no part said", "limits: {}", european},
		{"noise alone", "limits: {noise: {lower_action_dba: 85, upper_action_dba: 90, limit_dba: 90, exchange_db: 5, threshold_dba: 80}}", other},
		{"noise without a rate", "limits: {noise: {lower_action_dba: 80, upper_action_dba: 85, limit_dba: 87}}", european},
		{"vibration alone", "limits: {vibration: {action_ms2: 2, limit_ms2: 2}}", stricter},
	} {
		t.Run(row.name, func(t *testing.T) {
			c, problems := catalogue.Parse("shop.yaml", shopWith(t, row.section))
			require.Empty(t, problems)
			assert.Equal(t, row.want, c.Limits())
		})
	}
}

func TestLimitsRefuse(t *testing.T) {
	const noise = "lower_action_dba: 80, upper_action_dba: 85, limit_dba: 87"
	for _, row := range []struct{ name, section, want string }{
		{"a list", "limits: [1]", "limits is a list"},
		{"a part misspelt", "limits: {vibrations: {}}", "did you mean vibration?"},
		{"a value left out", "limits: {vibration: {action_ms2: 2.5}}", "vibration has no limit_ms2"},
		{"values that fall", "limits: {vibration: {action_ms2: 5, limit_ms2: 2.5}}", "action_ms2 is 5, above limit_ms2, which is 2.5"},
		{"another unit", "limits: {vibration: {action_ms2: 250, limit_ms2: 5}}", "action_ms2 is 250 m/s²; from 0.1 to 20 is allowed"},
		{"levels that fall", "limits: {noise: {lower_action_dba: 86, upper_action_dba: 85, limit_dba: 87}}", "lower_action_dba is 86, above upper_action_dba"},
		{"a limit under the action", "limits: {noise: {lower_action_dba: 80, upper_action_dba: 88, limit_dba: 87}}", "upper_action_dba is 88, above limit_dba"},
		{"no level", "limits: {noise: {lower_action_dba: 8, upper_action_dba: 85, limit_dba: 87}}", "lower_action_dba is 8 dB; from 60 to 120 is allowed"},
		{"no rate in use", "limits: {noise: {" + noise + ", exchange_db: 4}}", "exchange_db is 4 dB; write 3, equal energy, or 5"},
		{"a rate out of bounds", "limits: {noise: {" + noise + ", exchange_db: 6}}", "exchange_db is 6 dB; from 3 to 5 is allowed"},
		{"a threshold over the action", "limits: {noise: {" + noise + ", threshold_dba: 81}}", "threshold_dba is 81, above lower_action_dba"},
		{"a threshold that is a word", "limits: {noise: {" + noise + ", threshold_dba: none}}", "threshold_dba:"},
		{"a tag", "limits: !x {}", "shop.yaml:"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, problems := catalogue.Parse("shop.yaml", shopWith(t, row.section))
			require.Len(t, problems, 1)
			assert.Contains(t, problems[0].Error(), row.want)
			assert.Greater(t, problems[0].Pos.Line, 10, "at its line")
		})
	}
}
