package rpc

import (
	"errors"
	"strconv"
	"strings"
)

const usualPage = 100

// ErrListChanged says that what a page token leads on in is another list now.
var ErrListChanged = errors.New("the list has changed since its first page; list it again from the start")

// pageRequest is a request for part of a list.
type pageRequest interface {
	GetPageSize() int32
	GetPageToken() string
}

// pageOf cuts the page that is asked for out of a list, and gives the token of the next, empty at the end. A token leads on
// only in the list it was given for, which stamp tells from others.
func pageOf[T any](list []T, stamp string, req pageRequest) (page []T, next string, err error) {
	stamp = stamp[:min(len(stamp), 16)]
	from := 0
	if token := req.GetPageToken(); token != "" {
		of, at, ok := strings.Cut(token, ".")
		from, err = strconv.Atoi(at)
		if !ok || err != nil || from < 0 {
			return nil, "", tokenError()
		}
		if of != stamp || from > len(list) {
			return nil, "", ErrListChanged
		}
	}
	to := min(from+pageSize(req), len(list))
	if to < len(list) {
		next = stamp + "." + strconv.Itoa(to)
	}
	return list[from:to], next, nil
}

func pageSize(req pageRequest) int {
	if size := int(req.GetPageSize()); size > 0 {
		return size
	}
	return usualPage
}

func tokenError() error {
	return &RequestError{"page_token", "this is no token of a page; send the next_page_token of the answer before, or leave it out"}
}
