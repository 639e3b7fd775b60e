package hindsight

// What a look back cannot see, in plain words.
const (
	byOldAnswers = "The past went by the old answers. Where the new ones start milder than anything that was tried, nobody knows whether it would " +
		"have done: such panels count as open, never as better."
	expectedFilm = "A stronger start than was needed is taken to work as well, and to cost the film that its ladder takes more. That is expected film, " +
		"not measured."
	milderFails  = "A step that is milder than one that fell short is taken to fall short too."
	filmFirst    = "Film counts before trials, since it does not come back. Minutes are only those of trials that were timed."
	onlyAccepted = "Only panels whose trials ended with an acceptance are judged. Whether the owner was content later is not on record here."
	byChance     = "Many edits tried on one record find one that looks good by chance. Try an edit on the jobs that come after it too."
)

// Limits says in plain words what a replay cannot see.
func Limits() []string {
	return []string{
		byOldAnswers, expectedFilm, milderFails, filmFirst, onlyAccepted,
		"The facts are those that were seen. Changed numbers of policy and removal are followed into the film that may go, the severity that may stay " +
			"and the gain that counts; changed confidence, refractive index and haze thresholds are not.",
		"Settings and cautions are compared by the rules that told them, for the steps of the old ladder.",
		byChance,
	}
}

// HintLimits says in plain words what hints cannot see.
func HintLimits() []string {
	return []string{
		byOldAnswers, expectedFilm, milderFails, filmFirst, onlyAccepted,
		"A bound is moved by one step and by itself. It may reach further than the panels that speak for it: look at its effect, and narrow the rule " +
			"where they all are of one kind.",
		"Only bounds of the start table are tried. What keeps paint safe is left alone: no outcome of a trial speaks for less safety.",
		byChance,
	}
}
