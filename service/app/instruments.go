package app

import (
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/rpc"
)

// instrumentsOf turns the catalogue's instruments into those that the reckoning rooms work with.
func instrumentsOf(shop *catalogue.Catalogue) rpc.Instruments {
	own := shop.Instruments()
	kind := film.Combined
	if own.FilmGauge.Kind == catalogue.Ultrasonic {
		kind = film.Ultrasonic
	}
	return rpc.Instruments{
		Gloss: advisor.GlossMeter{
			AccuracyGU: own.GlossMeter.AccuracyGU, ResolutionGU: own.GlossMeter.ResolutionGU, ResolutionHU: own.GlossMeter.ResolutionHU,
		},
		Film: film.Gauge{
			Kind:     kind,
			Accuracy: film.Accuracy{FixedUm: film.Microns(own.FilmGauge.AccuracyUm), Percent: own.FilmGauge.AccuracyPct},
			StepUm:   film.Microns(own.FilmGauge.ResolutionUm),
		},
	}
}
