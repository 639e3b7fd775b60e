package words

import "maps"

// german is every text in German.
func german() map[Key]string {
	all := map[Key]string{
		And: "und", Then: "{first}, danach {next}", FromTo: "{low} bis {high}", WithRange: "{value} ({low} bis {high})", AtLeast: "mindestens {value}",
		Axis: "{what}, {unit}",

		Title:           "Protokoll der Lackaufbereitung",
		NoticeInterim:   "Die Arbeit ist nicht beendet; der Auftrag steht bei „{stage}“. Was hier steht, kann sich noch ändern.",
		NoticeCancelled: "Der Auftrag wurde vorzeitig beendet. Was bis dahin getan wurde, steht hier.",

		FactInspected: "Begutachtet", FactEnded: "Arbeit beendet", FactHandedOver: "Übergeben", FactWanted: "Gewünscht", FactPaint: "Lack",
		FactProtection: "Schutz danach", FactAir: "Luft in der Werkstatt", FactJob: "Auftrag", Humidity: "{share} Feuchte",

		InShort: "In Kürze", FromTheShop: "Von der Werkstatt", Findings: "Was gefunden wurde", Work: "Was getan wurde und warum",
		Results: "Vorher und nachher", FilmHeading: "Lack: abgetragen und übrig", OnPurpose: "Mit Absicht belassen", Care: "Den Lack pflegen",
		Cautions: "Zu beachten",

		NothingYet:  "Bisher wurde nichts begutachtet.",
		ShortPanels: "Begutachtet {n|wurde|wurden} {n} {n|Bauteil|Bauteile}, mit der Maschine bearbeitet {worked}.",
		ShortGloss:  "Vorher und nachher gemessen {n|wurde|wurden} {n} {n|Bauteil|Bauteile}; Änderung {scale}: {change}.",
		ShortHaze:   "Änderung {scale}: {change}.",
		ShortFilm:   "Kein Bauteil verlor nach dieser Rechnung mehr als {most} Lack.",

		ColPanel: "Bauteil", ColMarks: "Spuren und ihre Stärke", ColThinnest: "Dünnste Stelle, {unit}", ColGlossFound: "Glanz", ColNoted: "Vermerkt",
		ColGlossGain: "Änderung des Glanzes", ColHazeGain: "Änderung des Schleiers", ColSpots: "Stellen", ColMarksLeft: "Spuren, vorher → nachher",
		ColTaken: "Diesmal abgetragen", ColHow: "Woher bekannt", ColEarlier: "Frühere Besuche", ColMayGo: "Noch abtragbar",

		NoMarks: "keine gefunden", NotMeasured: "nicht gemessen", GlossAt: "{value} bei {angle}°", NotLookedAt: "nicht vermerkt", NotKnown: "nicht bekannt", NothingTaken: "nichts",
		SeverityNote: "Die Stärke geht von 0, keine, bis 5, schwer. Die dünnste Stelle ist der niedrigste Mittelwert einer Messstelle, alle Schichten zusammen.",

		WhyTest: "Was vom Lack wegpoliert ist, kommt nicht wieder. Empfohlen wird darum der mildeste Arbeitsgang, der gute Aussicht hat; eine Probestelle beweist " +
			"oder ändert ihn.",
		NoSpots: "Eine Probestelle ist nicht vermerkt.",
		Worked:  "Arbeitszeit {time}.", Advised: "Empfohlen war {ladder}.", StillOpen: "Noch nicht beendet.", NoStep: "kein Arbeitsgang", AdvisedWith: "Empfohlen waren",
		TestSpots: "Probestellen", NoVerdict: "kein Urteil vermerkt.",
		SpotGloss: "Glanz bei {angle}° {change}", SpotHaze: "Schleier {change}", SpotLeft: "Spuren übrig {left}, bleiben darf {allowed}",

		FigureChange: "{scale}, vorher und nachher", FigureFilm: "Lack, der noch abgetragen werden darf, vor und nach diesem Besuch",
		KeyBefore: "vorher", KeyAfter: "nachher", Ceiling: "Höchstwert eines Klarlacks, {value}",
		SpotOnly: "* An der Probestelle gemessen; das fertige Bauteil wurde nicht gemessen.",
		IntervalNote: "Ein Punkt ist das Mittel über dieselben Stellen vorher und nachher; seine Linie enthält den wahren Wert mit {share} Vertrauen, soweit die Streuung " +
			"der Messwerte es sagt. Was das Messgerät selbst falsch anzeigt, ist beide Male gleich und bleibt außer Betracht. Die Skala beginnt nicht bei null. " +
			"Mehr Glanz heißt klarere Spiegelung (ISO 2813), weniger Schleier heißt reinere.",

		MayGo: "noch abtragbarer Lack", NothingMore: "nichts mehr abtragen",
		HowMeasured: "vorher und nachher gemessen", HowExpected: "von den Arbeitsgängen zu erwarten", HowUnaccounted: "ohne Zahl: {steps}",
		FilmNote: "Was noch abgetragen werden darf, ist eine untere Grenze für das ganze Leben des Fahrzeugs: Sie belässt den Klarlack, der bleiben muss, " +
			"berücksichtigt, was das Messgerät falsch anzeigen kann, und rechnet mit dem oberen Ende des Abtrags, Probestellen eingeschlossen. Der nächste Besuch sollte ebenso rechnen.",

		Beyond:      "{mark}: dafür wäre der Arbeitsgang {needs} nötig; dieses Bauteil erlaubt höchstens: {allows}.",
		BeyondAny:   "{mark}: dafür wäre der Arbeitsgang {needs} nötig; dieses Bauteil erlaubt keinen.",
		StepLeftOut: "{step} wurde ausgelassen:", LeftAsItWas: "nicht mit der Maschine bearbeitet.",
		NotAdvised: "{mark}: dafür ist kein Arbeitsgang empfohlen.",
		StillSeen:  "Noch zu sehen: {marks}.", MayStay: "Für das Gewünschte darf Stärke {severity} bleiben.",

		CareWash:        "Von Hand waschen, von oben nach unten, mit viel Wasser und einem sauberen weichen Handschuh, der oft ausgespült wird. Die meisten Spuren kommen vom Waschen.",
		CareDry:         "Mit einem sauberen weichen Tuch oder mit Luft trocknen, ohne Druck. Staub nie trocken abwischen.",
		CareDroppings:   "Vogelkot, Insekten und Baumharz bald einweichen und abnehmen. Sie ätzen sich in den Klarlack, in der Sonne schneller.",
		CareBrushes:     "Bürsten in Waschanlagen, Spülmittel und Haushaltsreiniger meiden.",
		CareProtected:   "Für den Schutz ({protection}) gilt, was sein Hersteller sagt: wann zum ersten Mal gewaschen wird, womit, und wann er zu erneuern ist.",
		CareUnprotected: "Ein dauerhafter Schutz ist nicht vermerkt. Fragen Sie, welcher passt.",
		CareKeep:        "Dieses Protokoll beim Fahrzeug aufbewahren. Wer als Nächstes poliert, braucht die Zahlen zu jedem Bauteil.",

		CautionsFor:  "Für alle, die als Nächstes an diesem Lack arbeiten:",
		CautionGone:  "Was vom Lack weg ist, bleibt weg. Vor jedem weiteren Polieren jedes Bauteil neu messen und im Rahmen dessen bleiben, was noch abtragbar ist.",
		CautionEdges: "An Kanten und Sicken ist der Lack am dünnsten, und die Zahlen eines Bauteils gelten dort nicht.",

		FootRecord:    "Erstellt aus den Ereignissen des Auftrags, wie sie bis {day} vermerkt wurden.",
		FootCorrected: "{n} {n|Ereignis wurde|Ereignisse wurden} berichtigt oder zurückgenommen; hier steht, was gilt.",
		FootQuoted:    "Worte in Anführungszeichen sind die der Werkstatt und ihrer Regeln, in der Sprache, in der sie vermerkt wurden.",
		FootGauge:     "Schichtdicke gemessen mit einem Gerät der Art {gauge}; sein Hersteller gibt ±({fixed} + {share} des Messwerts) an.",
		FootRules:     "Entschieden nach {n|dem Regelsatz|den Regelsätzen} {rules}.",
		FootBound:     "Dieses Protokoll sagt, was gefunden und getan wurde. Es ist kein Gutachten über das Fahrzeug und keine Garantie.",
	}
	maps.Copy(all, germanWords())
	return all
}
