package main

import (
	"slices"
	"testing"
)

func TestPathTemplates(t *testing.T) {
	for template, want := range map[string]struct {
		path   string
		params []string
	}{
		"/v1/facts":                               {"/v1/facts", nil},
		"/v1:recommend":                           {"/v1:recommend", nil},
		"/v1/{name=vehicles/*}/film":              {"/v1/vehicles/{vehicle}/film", []string{"vehicle"}},
		"/v1/{vehicle.name=vehicles/*}":           {"/v1/vehicles/{vehicle}", []string{"vehicle"}},
		"/v1/{name=jobs/*}:finish":                {"/v1/jobs/{job}:finish", []string{"job"}},
		"/v1/{name=jobs/*/reportLinks/*}":         {"/v1/jobs/{job}/reportLinks/{report_link}", []string{"job", "report_link"}},
		"/v1/ruleFiles/{file.name=**}":            {"/v1/ruleFiles/{name}", []string{"name"}},
		"/v1/tables/{rule.table}/rules/{rule_id}": {"/v1/tables/{table}/rules/{rule_id}", []string{"table", "rule_id"}},
	} {
		var got binding
		if err := got.read(template); err != nil {
			t.Errorf("%s: %v", template, err)
			continue
		}
		var names []string
		for _, param := range got.params {
			names = append(names, param.name)
		}
		if got.path != want.path || !slices.Equal(names, want.params) {
			t.Errorf("%s: %s %v, want %s %v", template, got.path, names, want.path, want.params)
		}
	}
	for _, template := range []string{"/v1/{name", "/v1/{name=*}", "/v1/{name=jobs/**}", "/v1/{name=jobs/*/*}"} {
		var got binding
		if got.read(template) == nil {
			t.Errorf("%s: %s, want an error", template, got.path)
		}
	}
}
