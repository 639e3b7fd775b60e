// Package page sets the service's answers as text for a terminal: aligned, with units, in plain words, with every reason
// beside its rule.
//
// It owns the layout, the words for units and states, wrapping and colour. It says what the answer says and reckons
// nothing; it makes no calls, and never imports service/app.
package page
