package httpapi

import (
	"fmt"
	"mime"
	"net/http"

	"github.com/klauspost/compress/gzhttp"
)

// packLeast is the size from which an answer is packed, in bytes: a smaller one fits in one packet as it is.
const packLeast = 1400

// packed packs JSON by gzip for callers that take it (RFC 9110, 12.5.3): the schema of the facts becomes six times smaller, which a
// phone far from the router feels. Streams pass as they are, since each message is to leave at once; pages and calendars keep their
// one tag for one form.
func packed(next http.Handler) (http.Handler, error) {
	wrap, err := gzhttp.NewWrapper(gzhttp.MinSize(packLeast), gzhttp.ContentTypeFilter(isJSON))
	if err != nil {
		return nil, fmt.Errorf("prepare packed answers: %w", err)
	}
	return wrap(next), nil
}

func isJSON(media string) bool {
	plain, _, err := mime.ParseMediaType(media)
	return err == nil && plain == "application/json"
}
