package words

// germanWords are the words of the contract and the months.
func germanWords() map[Key]string {
	return map[Key]string{
		"month.1": "Januar", "month.2": "Februar", "month.3": "März", "month.4": "April", "month.5": "Mai", "month.6": "Juni",
		"month.7": "Juli", "month.8": "August", "month.9": "September", "month.10": "Oktober", "month.11": "November", "month.12": "Dezember",

		"stage.booked": "angenommen", "stage.inspected": "begutachtet", "stage.trial": "Probestellen", "stage.planned": "geplant", "stage.in-work": "in Arbeit",
		"stage.finished": "beendet", "stage.handed-over": "übergeben", "stage.cancelled": "abgebrochen",

		"goal.freshen": "Glanz auffrischen", "goal.enhance": "die meisten leichten Spuren entfernt", "goal.correct": "fast alle Spuren entfernt, die gefahrlos gehen",
		"goal.show": "so nahe an makellos, wie der Lack erlaubt",

		"protection.nothing": "keiner", "protection.wax": "Wachs", "protection.sealant": "Versiegelung", "protection.coating": "Beschichtung",

		"system.clear-coat": "Klarlack", "system.single-stage": "Einschichtlack", "system.matte": "Mattlack", "system.satin": "Seidenmattlack",
		"system.wrap": "Farbfolie", "system.protection-film": "Schutzfolie",

		"softness.very-soft": "sehr weich", "softness.soft": "weich", "softness.medium": "mittelhart", "softness.hard": "hart", "softness.very-hard": "sehr hart",
		"shade.light": "helle Farbe", "shade.medium": "mittlere Farbe", "shade.dark": "dunkle Farbe",

		"substrate.steel": "auf Stahl", "substrate.aluminium": "auf Aluminium", "substrate.plastic": "auf Kunststoff", "substrate.carbon": "auf Kohlefaser",
		"substrate.fibreglass": "auf Glasfaser",

		"part.bonnet": "Motorhaube", "part.roof": "Dach", "part.boot-lid": "Heckklappe", "part.door": "Tür", "part.front-wing": "Kotflügel",
		"part.rear-wing": "Seitenwand", "part.bumper": "Stoßfänger", "part.sill": "Schweller", "part.pillar": "Säule", "part.mirror-cap": "Spiegelkappe",
		"side.front": "vorne", "side.rear": "hinten", "side.left": "links", "side.right": "rechts",

		"defect.wash-marks": "Waschkratzer", "defect.deep-scratches": "tiefe Kratzer", "defect.holograms": "Hologramme", "defect.haze": "Schleier",
		"defect.oxidation": "Oxidation", "defect.water-spot-etching": "Wasserflecken-Ätzung", "defect.organic-etching": "Ätzung durch Kot oder Harz",
		"defect.sanding-marks": "Schleifspuren", "defect.bonded-contamination": "fest haftende Verschmutzung", "defect.orange-peel": "Orangenhaut",
		"defect.chips": "Steinschläge", "defect.cracks": "Risse", "defect.peeling": "Ablösung", "defect.clear-coat-failure": "Klarlackschaden",

		"step.none": "kein Arbeitsgang", "step.finish": "Finish", "step.polish": "Politur", "step.cut": "Schleifpolitur",

		"machine.hand": "von Hand", "machine.short-orbital": "Exzenter mit kurzem Hub", "machine.long-orbital": "Exzenter mit langem Hub",
		"machine.gear-driven-orbital": "Exzenter mit Zwangsrotation", "machine.rotary": "Rotation",
		"pad.finishing-foam": "weicher Schaum", "pad.polishing-foam": "mittlerer Schaum", "pad.cutting-foam": "harter Schaum", "pad.microfibre": "Mikrofaser", "pad.wool": "Wolle",
		"liquid.finishing-liquid": "Feinstpolitur", "liquid.polishing-liquid": "Feinpolitur", "liquid.cutting-liquid": "grobe Politur",

		"verdict.accept": "angenommen", "verdict.adjust": "richtiger Arbeitsgang, eines ändern", "verdict.step-up": "zu mild, eine Stufe stärker",
		"verdict.step-down": "stärker als nötig, eine Stufe milder", "verdict.refine": "behalten und einen milderen anschließen", "verdict.repeat": "die Messwerte entscheiden nicht, wiederholen",
		"verdict.stop": "an diesem Bauteil nicht weiter",

		"state.ready": "", "state.prepare": "Zuerst ist etwas zu tun.", "state.wait": "Zuerst müssen sich die Bedingungen ändern.",
		"state.nothing-to-do": "Nichts daran verlangt einen Arbeitsgang.", "state.refer": "Es gehört zu einem anderen Gewerk.", "state.stop": "Kein Arbeitsgang kommt dafür in Frage.",

		"topic.film": "Schichtdicke", "topic.paint": "Lack", "topic.sensors": "Sensoren", "topic.old-paint": "alter Lack", "topic.refinisher": "Lackierer",

		"scale.gloss-at-20": "Glanz bei 20°", "scale.gloss-at-60": "Glanz bei 60°", "scale.gloss-at-85": "Glanz bei 85°", "scale.haze": "Schleier", "scale.haze-index": "Schleierindex (60° minus 20°)",

		"gauge.magnetic": "Magnetinduktion", "gauge.eddy-current": "Wirbelstrom", "gauge.magnetic/eddy-current": "Magnetinduktion und Wirbelstrom",
		"gauge.ultrasonic": "Ultraschall",
	}
}
