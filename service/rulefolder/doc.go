// Package rulefolder owns the files of a shop's rule folder on disk: how they are looked at, and how they are edited so that
// no edit undoes another one, and an edit of several files is done whole or not at all, also across a crash.
//
// It knows names, texts and etags. What the texts mean, and whether they hold together, it leaves to its callers.
package rulefolder
