package httpapi

import (
	"compress/gzip"
	"fmt"
	"io"

	"connectrpc.com/connect"
	"connectrpc.com/vanguard"
)

// unpacking takes gzip from callers, up to a limit: the transcoder alone would unpack a small body into any amount of memory.
func unpacking(limit int64) vanguard.TranscoderOption {
	return vanguard.WithCompression(vanguard.CompressionGzip,
		func() connect.Compressor { return gzip.NewWriter(io.Discard) },
		func() connect.Decompressor { return &unpacker{limit: limit} },
	)
}

// unpacker is a gzip reader that gives no more than limit bytes.
type unpacker struct {
	gzip.Reader
	limit, left int64
}

// Reset begins anew with another body.
func (u *unpacker) Reset(from io.Reader) error {
	u.left = u.limit
	return u.Reader.Reset(from)
}

// Read unpacks. It looks one byte beyond the limit, so that a body of just the limit passes.
func (u *unpacker) Read(into []byte) (int, error) {
	if int64(len(into)) > u.left+1 {
		into = into[:u.left+1]
	}
	n, err := u.Reader.Read(into)
	if u.left -= int64(n); u.left < 0 {
		return 0, connect.NewError(connect.CodeResourceExhausted, fmt.Errorf("the request is larger than %d bytes, once unpacked", u.limit))
	}
	return n, err
}
