// Package catalogue holds what a shop works with: its machines, pads, liquids and consumables with their prices, and its
// hourly rate. Things are known by class and by properties that anyone can measure or read off a data sheet.
//
// It owns the words for the classes, the bounds of every figure, exact money, and the reading of catalogue.yaml with every
// problem at once. It does not choose: which combination suits a step is for the rule files, what a job costs is for the
// plan. It reads bytes it is given and opens no files.
package catalogue
