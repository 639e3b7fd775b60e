package history

import (
	"encoding/base64"
	"encoding/json"
)

// The most and the usual number on one page.
const (
	MostOnPage  = 1000
	usualOnPage = 50
)

// PageSize is the size of a page that was asked for: 0 means the usual one.
func PageSize(asked int) int {
	if asked <= 0 {
		return usualOnPage
	}
	return min(asked, MostOnPage)
}

// pageToken is the place where a page ended, with the question that it answers: a place in one list says nothing of another.
type pageToken struct {
	Of    string          `json:"of"`
	After json.RawMessage `json:"after"`
}

// NextPage makes the token of the page that follows a place in the list that answers a question.
func NextPage(question, after any) (string, error) {
	of, err := json.Marshal(question)
	if err != nil {
		return "", err
	}
	place, err := json.Marshal(after)
	if err != nil {
		return "", err
	}
	token, err := json.Marshal(pageToken{Of: string(of), After: place})
	if err != nil {
		return "", err
	}
	return base64.RawURLEncoding.EncodeToString(token), nil
}

// ReadPage reads a token that [NextPage] made for the same question, into a place. Anything else is a [*PageTokenError]. The
// empty token asks for the first page: it reads nothing, and more is false.
func ReadPage(token string, question, after any) (more bool, err error) {
	if token == "" {
		return false, nil
	}
	var read pageToken
	data, err := base64.RawURLEncoding.DecodeString(token)
	if err != nil || json.Unmarshal(data, &read) != nil {
		return false, &PageTokenError{Says: "was not given by any list"}
	}
	of, err := json.Marshal(question)
	if err != nil {
		return false, err
	}
	if read.Of != string(of) {
		return false, &PageTokenError{Says: "was given for another question; ask the same with every page"}
	}
	if json.Unmarshal(read.After, after) != nil {
		return false, &PageTokenError{Says: "was not given by any list"}
	}
	return true, nil
}
