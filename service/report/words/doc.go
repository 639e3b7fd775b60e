// Package words holds every text of the owner's record in every language that it comes in, and how each locale writes numbers,
// dates and units.
//
// One key, one text in each language; tests hold the languages complete, alike in their placeholders, and free of texts that
// nothing uses. What a shop or its rules say in their own words is no text of ours: it is quoted as it stands. The package
// imports no contract, storage, network, os, clock or log, and everything in it may be used concurrently.
package words
