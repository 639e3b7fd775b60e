package app

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/httpapi"
)

// reportPages are the pages of reports: asked for like any call by whoever works here, and by the token of a link by others.
func (a *App) reportPages() *httpapi.Reports {
	return &httpapi.Reports{Client: glossladderv1.NewReportServiceClient(a.inner), Shared: a.reports.Shared}
}
