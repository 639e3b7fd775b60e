// Package gloss reckons with gloss and haze readings: what a spot or a panel reads and how surely, what a step
// gained, whether that gain is real and worth having, and how many more readings would settle it; and the optics
// beside it: which angle to read, how high a clear coat can read at all, how hazy a perfect one seems.
//
// It owns formulas only. How much gain is worth having, which confidence to ask for, which refractive index a shop
// assumes and what follows from a verdict belong to rule files and reach this package as parameters.
//
// Values on the 20, 60 and 85 degree scales are gloss units (GU); values on the haze scale are the meter's own haze
// units (HU). Every struct that holds such a value also holds its [Scale]. Nothing here is mutable or shared: all
// functions may be called concurrently. The package imports no contract, storage, transport, clock or log.
package gloss
