package words

// englishWords are the words of the contract and the months.
func englishWords() map[Key]string {
	return map[Key]string{
		"month.1": "January", "month.2": "February", "month.3": "March", "month.4": "April", "month.5": "May", "month.6": "June",
		"month.7": "July", "month.8": "August", "month.9": "September", "month.10": "October", "month.11": "November", "month.12": "December",

		"stage.booked": "booked", "stage.inspected": "inspected", "stage.trial": "test spots", "stage.planned": "planned", "stage.in-work": "in work",
		"stage.finished": "finished", "stage.handed-over": "handed over", "stage.cancelled": "cancelled",

		"goal.freshen": "lift the gloss", "goal.enhance": "most light marks gone", "goal.correct": "nearly all marks that can safely go",
		"goal.show": "as near to perfect as the film allows",

		"protection.nothing": "nothing", "protection.wax": "wax", "protection.sealant": "sealant", "protection.coating": "coating",

		"system.clear-coat": "clear coat", "system.single-stage": "single-stage", "system.matte": "matte", "system.satin": "satin",
		"system.wrap": "coloured film", "system.protection-film": "protection film",

		"softness.very-soft": "very soft", "softness.soft": "soft", "softness.medium": "medium hard", "softness.hard": "hard", "softness.very-hard": "very hard",
		"shade.light": "light colour", "shade.medium": "middling colour", "shade.dark": "dark colour",

		"substrate.steel": "on steel", "substrate.aluminium": "on aluminium", "substrate.plastic": "on plastic", "substrate.carbon": "on carbon fibre",
		"substrate.fibreglass": "on glass fibre",

		"part.bonnet": "bonnet", "part.roof": "roof", "part.boot-lid": "boot lid", "part.door": "door", "part.front-wing": "front wing",
		"part.rear-wing": "rear wing", "part.bumper": "bumper", "part.sill": "sill", "part.pillar": "pillar", "part.mirror-cap": "mirror cap",
		"side.front": "front", "side.rear": "rear", "side.left": "left", "side.right": "right",

		"defect.wash-marks": "wash marks", "defect.deep-scratches": "deep scratches", "defect.holograms": "machine trails", "defect.haze": "haze",
		"defect.oxidation": "oxidation", "defect.water-spot-etching": "water-spot etching", "defect.organic-etching": "etching by droppings or sap",
		"defect.sanding-marks": "sanding marks", "defect.bonded-contamination": "bonded contamination", "defect.orange-peel": "orange peel",
		"defect.chips": "stone chips", "defect.cracks": "cracks", "defect.peeling": "peeling", "defect.clear-coat-failure": "clear-coat failure",

		"step.none": "no step", "step.finish": "finish", "step.polish": "polish", "step.cut": "cut",

		"machine.hand": "by hand", "machine.short-orbital": "short-throw orbital", "machine.long-orbital": "long-throw orbital",
		"machine.gear-driven-orbital": "gear-driven orbital", "machine.rotary": "rotary",
		"pad.finishing-foam": "finishing foam", "pad.polishing-foam": "polishing foam", "pad.cutting-foam": "cutting foam", "pad.microfibre": "microfibre", "pad.wool": "wool",
		"liquid.finishing-liquid": "finishing liquid", "liquid.polishing-liquid": "polishing liquid", "liquid.cutting-liquid": "cutting liquid",

		"verdict.accept": "accepted", "verdict.adjust": "right step, change one thing", "verdict.step-up": "too mild, one step stronger",
		"verdict.step-down": "stronger than needed, one step milder", "verdict.refine": "keep it and add a milder step", "verdict.repeat": "the readings cannot tell, try again",
		"verdict.stop": "no further on this panel",

		"state.ready": "", "state.prepare": "Something has to be done first.", "state.wait": "Conditions have to change first.",
		"state.nothing-to-do": "Nothing on it asks for a machine step.", "state.refer": "It is for another trade.", "state.stop": "No machine step is for it.",

		"topic.film": "film", "topic.paint": "paint", "topic.sensors": "sensors", "topic.old-paint": "old paint", "topic.refinisher": "refinisher",

		"scale.gloss-at-20": "gloss at 20°", "scale.gloss-at-60": "gloss at 60°", "scale.gloss-at-85": "gloss at 85°", "scale.haze": "haze", "scale.haze-index": "haze index (60° less 20°)",

		"gauge.magnetic": "magnetic", "gauge.eddy-current": "eddy-current", "gauge.magnetic/eddy-current": "magnetic and eddy-current",
		"gauge.ultrasonic": "ultrasonic",
	}
}
