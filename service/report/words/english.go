package words

import "maps"

// english is every text in English.
func english() map[Key]string {
	all := map[Key]string{
		And: "and", Then: "{first}, then {next}", FromTo: "{low} to {high}", WithRange: "{value} ({low} to {high})", AtLeast: "at least {value}",
		Axis: "{what}, {unit}",

		Title:           "Record of the paintwork",
		NoticeInterim:   "The work is not finished; the job stands at “{stage}”. What is written here may still change.",
		NoticeCancelled: "The job was ended early. What was done until then stands here.",

		FactInspected: "Inspected", FactEnded: "Work ended", FactHandedOver: "Handed over", FactWanted: "Wanted", FactPaint: "Paint",
		FactProtection: "Protection afterwards", FactAir: "Air in the bay", FactJob: "Job", Humidity: "{share} humidity",

		InShort: "In short", FromTheShop: "From the shop", Findings: "What was found", Work: "What was done, and why",
		Results: "Before and after", FilmHeading: "Paint taken, paint left", OnPurpose: "Left on purpose", Care: "Looking after the paint",
		Cautions: "Cautions",

		NothingYet:  "Nothing has been inspected yet.",
		ShortPanels: "{n} {n|panel was|panels were} inspected and {worked} worked by machine.",
		ShortGloss:  "The {scale} changed by {change} over {n} {n|panel|panels} read before and after.",
		ShortHaze:   "The {scale} changed by {change}.",
		ShortFilm:   "No panel is reckoned to have lost more than {most} of paint.",

		ColPanel: "Panel", ColMarks: "Marks and their severity", ColThinnest: "Thinnest place, {unit}", ColGlossFound: "Gloss", ColNoted: "Noted",
		ColGlossGain: "Change in gloss", ColHazeGain: "Change in haze", ColSpots: "Spots", ColMarksLeft: "Marks, before → after",
		ColTaken: "Taken this visit", ColHow: "How it is known", ColEarlier: "Earlier visits", ColMayGo: "May still go",

		NoMarks: "none found", NotMeasured: "not measured", GlossAt: "{value} at {angle}°", NotLookedAt: "not noted", NotKnown: "not known", NothingTaken: "nothing",
		SeverityNote: "Severity runs from 0, none, to 5, severe. The thinnest place is the lowest mean of a measured spot, all layers together.",

		WhyTest: "Paint that is polished away does not come back. What is advised is therefore the mildest step that has a fair chance, for a test spot to " +
			"prove or to change.",
		NoSpots: "No test spot is on record.",
		Worked:  "Worked {time}.", Advised: "Advised was {ladder}.", StillOpen: "Not finished yet.", NoStep: "no step", AdvisedWith: "As advised, with",
		TestSpots: "Test spots", NoVerdict: "no verdict is on record.",
		SpotGloss: "gloss at {angle}° {change}", SpotHaze: "haze {change}", SpotLeft: "marks left {left}, where {allowed} may stay",

		FigureChange: "{scale}, before and after", FigureFilm: "Paint that may still be taken off, before and after this visit",
		KeyBefore: "before", KeyAfter: "after", Ceiling: "ceiling of a clear coat, {value}",
		SpotOnly: "* Read on the test spot; the finished panel was not read.",
		IntervalNote: "A dot is the mean over the same spots before and after; its line holds the true value with {share} confidence, as far as the spread of " +
			"the readings tells. What the meter itself reads wrong is the same both times and is left out. The scale does not begin at zero. " +
			"More gloss is clearer reflection (ISO 2813); less haze is a cleaner one.",

		MayGo: "paint that may still go", NothingMore: "nothing more may go",
		HowMeasured: "measured before and after", HowExpected: "expected of the steps", HowUnaccounted: "no figure for: {steps}",
		FilmNote: "What may still go is a lower bound over the life of the vehicle: it keeps the clear coat that has to stay, allows for what the gauge may read " +
			"wrong, and counts the high end of what was taken, test spots included. The next visit should count the same way.",

		Beyond:      "{mark} would need the step {needs}; this panel allows at most {allows}.",
		BeyondAny:   "{mark} would need the step {needs}; this panel allows none.",
		StepLeftOut: "{step} was left out:", LeftAsItWas: "not worked by machine.",
		NotAdvised: "{mark}: no step is advised for it.",
		StillSeen:  "Still to be seen: {marks}.", MayStay: "For what was wanted, severity {severity} may stay.",

		CareWash:        "Wash by hand, from the top down, with plenty of water and a clean soft mitt that is rinsed often. Most marks come from washing.",
		CareDry:         "Dry with a clean soft towel or with air, and without pressure. Never wipe dust off a dry panel.",
		CareDroppings:   "Soak off bird droppings, insects and sap soon. They eat into the clear coat, faster in the sun.",
		CareBrushes:     "Keep away from brushes in washes, and from dishwashing liquid and household cleaners.",
		CareProtected:   "For the {protection} go by what its maker says: how long before the first wash, what to wash with, when to renew it.",
		CareUnprotected: "The paint has no lasting protection on record. Ask what would suit it.",
		CareKeep:        "Keep this record with the vehicle. Whoever polishes it next needs the figures for each panel.",

		CautionsFor:  "For whoever works on this paint next:",
		CautionGone:  "Paint that is gone stays gone. Measure each panel again before any further polishing, and stay within what may still go.",
		CautionEdges: "Edges and body lines carry the thinnest paint, and the figures for a panel do not hold there.",

		FootRecord:    "Made from the events of the job as they were recorded up to {day}.",
		FootCorrected: "{n} {n|event was|events were} corrected or withdrawn; what holds stands here.",
		FootQuoted:    "Words in quotation marks are those of the shop and of its rules, as they were recorded.",
		FootGauge:     "Film was read with a {gauge} gauge; its maker states ±({fixed} + {share} of the reading).",
		FootRules:     "Decided by {n|the rule set|the rule sets} {rules}.",
		FootBound:     "This record tells what was found and done. It is no expert opinion on the vehicle and no warranty.",
	}
	maps.Copy(all, englishWords())
	return all
}
