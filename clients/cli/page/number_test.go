package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbersAreSetAsPeopleReadThem(t *testing.T) {
	for name, row := range map[string]struct{ got, want string }{
		"a whole number has no decimals":     {number(12), "12"},
		"one decimal":                        {number(12.34), "12.3"},
		"two below one":                      {number(0.256), "0.26"},
		"nothing left after rounding":        {number(-0.001), "0"},
		"large":                              {number(3000), "3000"},
		"a number and its unit":              {with(118.04, "µm"), "118 µm"},
		"no unit, no space":                  {with(3, ""), "3"},
		"a reading keeps its decimal":        {reading(82, "GU"), "82.0 GU"},
		"a rise has its plus":                {signed(2.44), "+2.4"},
		"a fall has its minus":               {signed(-2.46), "-2.5"},
		"a change too small to show is none": {signed(-0.04), "0.0"},
		"one of a kind":                      {plural(1, "spot", "spots"), "1 spot"},
		"several":                            {plural(3, "spot", "spots"), "3 spots"},
		"two joined":                         {listed([]string{"bonnet", "roof"}), "bonnet and roof"},
		"three joined":                       {listed([]string{"bonnet", "roof", "door"}), "bonnet, roof and door"},
		"a sentence ends once":               {stopped("Stop."), "Stop."},
		"a sentence begins large":            {upperFirst("ölig"), "Ölig"},
	} {
		assert.Equal(t, row.want, strings.ReplaceAll(row.got, nbsp, " "), name)
	}
}

func TestANumberNeverLeavesItsUnit(t *testing.T) {
	for _, text := range []string{with(118, "µm"), reading(82, "GU"), plural(3, "spots", "spots")} {
		assert.NotContains(t, text, " ", "a break would fall between the two")
		assert.Contains(t, text, nbsp)
	}
}
