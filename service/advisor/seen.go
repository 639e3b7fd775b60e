package advisor

import (
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// saying is how people say what a fact is. Is takes the value in words at %s; yes and no are for flags; unknown for what
// nobody told or measured.
type saying struct{ is, yes, no, unknown string }

// sayings are by fact; a fact without one is told by its label.
var sayings = map[string]saying{
	"paint.system":     {is: "the top layer is %s", unknown: "nobody has said what the top layer is"},
	"paint.softness":   {is: "the paint is %s", unknown: "nobody knows how soft the paint is"},
	"paint.shade":      {is: "the colour is %s", unknown: "nobody has noted the shade"},
	"paint.haze_prone": {yes: "the paint hazes readily", no: "the paint does not haze readily", unknown: "nobody has seen the paint haze"},
	"paint.age_years":  {is: "the paint is %s old", unknown: "the age of the paint is not known"},
	"paint.cured_days": {is: "it was painted %s ago", unknown: "nobody knows of a repaint"},
	"panel.part":       {is: "the part is a %s", unknown: "the part is not named"},
	"panel.substrate":  {is: "the panel is %s", unknown: "nobody has said what the panel is made of"},
	"panel.clean":      {yes: "the panel is clean", no: "the panel is not clean", unknown: "nobody has said that the panel is clean"},
	"panel.in_sun":     {yes: "the panel stands in the sun", no: "the panel is out of the sun", unknown: "nobody has said whether the sun falls on it"},
	"panel.repaint_known": {
		yes: "the panel is known to be repainted", no: "the panel is known not to be repainted", unknown: "nobody knows of a repaint",
	},
	"panel.sensor_behind": {yes: "a sensor sits behind the panel", no: "no sensor sits behind the panel", unknown: "nobody has looked for a sensor behind the panel"},
	"panel.edge_or_line":  {yes: "the area holds an edge or body line", no: "the area holds no edge or body line", unknown: "nobody has looked for edges in the area"},
	"panel.taped":         {yes: "the edges are taped", no: "the edges are not taped", unknown: "nobody has said that the edges are taped"},
	"panel.worst_severity": {
		is: "the worst mark is of severity %s", unknown: "no mark has been graded",
	},
	"panel.allowed_severity": {is: "marks up to severity %s may stay", unknown: "nobody has said what may stay"},
	"defect.kind":            {is: "the marks are %s", unknown: "nobody has named the marks"},
	"defect.severity":        {is: "their severity is %s", unknown: "nobody has graded them"},
	"defect.catches_nail":    {yes: "a fingernail catches in them", no: "no fingernail catches in them", unknown: "nobody has drawn a fingernail across them"},

	"film.readable":        {yes: "the gauge can read the panel", no: "the gauge cannot read the panel", unknown: "nobody knows whether the gauge can read the panel"},
	"film.lowest_um":       {is: "the lowest film reading is %s", unknown: "the film has not been measured"},
	"film.highest_um":      {is: "the highest film reading is %s", unknown: "the film has not been measured"},
	"film.lowest_bound_um": {is: "the film may be as thin as %s", unknown: "the film has not been measured"},
	"film.clear_um":        {is: "the clear coat may be as thin as %s", unknown: "the film has not been measured"},
	"film.edge_drop_um":    {is: "the film falls by %s toward the edge", unknown: "no film was read near the edge"},
	"film.neighbour_um":    {is: "the film differs by %s from other panels", unknown: "the film of other panels has not been measured"},
	"film.thin":            {yes: "the film is thin", no: "the film is not thin", unknown: "the film has not been measured"},
	"film.repaint_signs":   {yes: "the film readings hint at a repaint", no: "the film readings show no sign of a repaint", unknown: "the film has not been measured"},
	"film.filler_signs":    {yes: "the film readings hint at filler", no: "the film readings show no sign of filler", unknown: "the film has not been measured"},
	"film.taken_um":        {is: "earlier visits took %s", unknown: "nobody knows what earlier visits took"},
	"film.usable_um":       {is: "%s of film may still go", unknown: "the film has not been measured"},
	"film.after_finish_um": {is: "a finish leaves %s of the film that may go", unknown: "the film has not been measured"},
	"film.after_polish_um": {is: "a polish and what follows leave %s of the film that may go", unknown: "the film has not been measured"},
	"film.after_cut_um":    {is: "a cut and what follows leave %s of the film that may go", unknown: "the film has not been measured"},

	"climate.air_c":        {is: "the air is at %s", unknown: "the air has not been measured"},
	"climate.panel_c":      {is: "the panel is at %s", unknown: "the panel temperature has not been measured"},
	"climate.humidity_pct": {is: "the humidity is %s", unknown: "the humidity has not been measured"},
	"climate.dew_margin_c": {is: "the panel is %s over the dew point", unknown: "the dew point is not known"},
	"gloss.headroom_gu":    {is: "gloss lies %s under the best that clear coat can show", unknown: "gloss has not been measured"},
	"gloss.at20_gu":        {is: "gloss at 20° reads %s", unknown: "gloss at 20° has not been measured"},
	"gloss.at60_gu":        {is: "gloss at 60° reads %s", unknown: "gloss at 60° has not been measured"},
	"gloss.at85_gu":        {is: "gloss at 85° reads %s", unknown: "gloss at 85° has not been measured"},
	"haze.index_hu":        {is: "the haze index is %s", unknown: "haze has not been measured"},
	"haze.meter_hu":        {is: "the meter reads a haze of %s", unknown: "haze has not been measured"},
	"goal.level":           {is: "the owner wants it %s", unknown: "nobody has asked the owner what is wanted"},
	"goal.protection":      {is: "%s goes on afterwards", unknown: "nobody has said what goes on afterwards"},

	"vehicle.size": {is: "the vehicle is %s", unknown: "nobody has said how large the vehicle is"},
	"vehicle.kept": {is: "it is kept %s", unknown: "nobody has said where it is kept"},

	"step.start": {is: "the marks ask for %s", unknown: "no start was decided"},
	"step.limit": {is: "the panel allows at most %s", unknown: "no limit was decided"},
	"step.first": {is: "the ladder starts with %s", unknown: "no first step was decided"},
	"step.now":   {is: "the step is %s", unknown: "no step was named"},
	"step.place": {is: "it is step %s of the ladder", unknown: "its place in the ladder is not known"},
	"step.last":  {yes: "nothing follows it", no: "another step follows it", unknown: "nobody knows whether a step follows it"},

	"trial.number":            {is: "this is trial %s on the panel", unknown: "the number of trials is not known"},
	"trial.number_left":       {is: "%s more trials are open", unknown: "the number of trials is not known"},
	"trial.on_step":           {is: "this is trial %s in a row with this step", unknown: "the number of trials is not known"},
	"trial.gain":              {is: "the gloss gain is %s", unknown: "gloss was not read before and after"},
	"trial.gain_gu":           {is: "gloss rose by %s", unknown: "gloss was not read before and after"},
	"trial.gain_low_gu":       {is: "gloss rose by at least %s", unknown: "gloss was not read before and after"},
	"trial.headroom_left_gu":  {is: "gloss lies %s under the best that clear coat can show", unknown: "gloss was not read after the trial"},
	"trial.haze":              {is: "haze is %s", unknown: "haze was not read before and after"},
	"trial.severity_left":     {is: "marks of severity %s are left", unknown: "nobody has graded what is left"},
	"trial.short_by":          {is: "the marks are %s short of the goal", unknown: "nobody has graded what is left"},
	"trial.improved_by":       {is: "the marks went down by %s", unknown: "nobody has graded what is left"},
	"trial.trails_left":       {is: "the step left trails of severity %s", unknown: "nobody has looked for trails"},
	"trial.wipe_off":          {is: "the residue came away %s", unknown: "nobody has noted the wipe-off"},
	"trial.panel_c":           {is: "the panel reached %s", unknown: "nobody has felt how hot the panel got"},
	"trial.panel_wiped":       {yes: "the panel was wiped before reading", no: "the panel was not wiped before reading", unknown: "nobody has said that the panel was wiped"},
	"trial.pad_loaded":        {yes: "the pad was loaded", no: "the pad was not loaded", unknown: "nobody has looked at the pad"},
	"trial.color_transfer":    {yes: "the pad took up colour", no: "the pad took up no colour", unknown: "nobody has looked for colour on the pad"},
	"trial.things_changed":    {is: "the number of things changed at once is %s", unknown: "nobody has said what was changed"},
	"trial.changed":           {is: "what was changed since the last trial is this: %s", unknown: "more than one thing was changed"},
	"trial.same_change_again": {yes: "the same was changed before", no: "the same was not changed before", unknown: "nobody knows what was changed before"},
	"trial.stronger_failed":   {yes: "a stronger step was tried already", no: "no stronger step has been tried", unknown: "nobody knows of a stronger trial"},
	"trial.milder_failed":     {yes: "the milder step was tried and fell short", no: "the milder step has not been tried in vain", unknown: "nobody knows of a milder trial"},
	"trial.film_left_um":      {is: "%s of film may still go after this trial", unknown: "the film has not been measured"},
	"trial.after_repeat_um":   {is: "another try and what follows leave %s of the film that may go", unknown: "the film has not been measured"},
	"trial.after_step_up_um":  {is: "a stronger step and what follows leave %s of the film that may go", unknown: "the film has not been measured"},

	"history.panels":          {is: "%s panels like this one are on record", unknown: "no panel like this one is on record"},
	"history.success_pct":     {is: "the step is accepted in %s of such cases by the record", unknown: "nothing like it is on record"},
	"history.success_low_pct": {is: "the step is accepted in at least %s of such cases by the record", unknown: "nothing like it is on record"},
	"history.gain_gu":         {is: "the step gains %s on such panels by the record", unknown: "no gain on such panels is on record"},
	"history.gain_low_gu":     {is: "the step gains at least %s on such panels by the record", unknown: "no gain on such panels is on record"},
	"history.removals":        {is: "%s measured removals are on record", unknown: "no measured removal is on record"},
	"history.takes_more_um":   {is: "the step takes at least %s more than is counted with, by the record", unknown: "no measured removal is on record"},
	"history.finish_panels":   {is: "%s panels on record tell of a finish", unknown: "no finish on such marks is on record"},
	"history.finish_low_pct":  {is: "a finish clears such marks in at least %s of cases by the record", unknown: "no finish on such marks is on record"},
	"history.polish_panels":   {is: "%s panels on record tell of a polish", unknown: "no polish on such marks is on record"},
	"history.polish_low_pct":  {is: "a polish clears such marks in at least %s of cases by the record", unknown: "no polish on such marks is on record"},
}

// spoken is how people say a word of a list after the saying of its fact.
var spoken = map[string]map[string]string{
	"goal.level":      {"freshen": "freshened up", "enhance": "enhanced", "correct": "corrected", "show": "fit for show"},
	"goal.protection": {"nothing": "nothing", "wax": "a wax", "sealant": "a sealant", "coating": "a coating"},
	"trial.gain": {
		"loss": "a loss", "too-small": "too small to be worth having", "not-conclusive": "lost in the scatter of the readings", "worthwhile": "real and worth having",
	},
	"trial.haze": {
		"better": "down", "same": "as before", "not-conclusive": "lost in the scatter of the readings", "worse": "up",
	},
	"trial.wipe_off": {"clean": "clean", "hard": "hard", "smeary": "smeary", "oily": "oily", "dusting": "as dust"},
	"paint.softness": {"medium": "medium hard"}, "paint.system": {"wrap": "a wrap"},
	"panel.part": {
		"bonnet": "a bonnet", "roof": "a roof", "boot-lid": "a boot lid", "door": "a door", "front-wing": "a front wing", "rear-wing": "a rear wing",
		"bumper": "a bumper", "sill": "a sill", "pillar": "a pillar", "mirror-cap": "a mirror cap", "other": "another part",
	},
	"step.first": steps, "step.now": steps, "step.start": steps, "step.limit": steps,
}

var steps = map[string]string{"none": "no step", "finish": "a finish", "polish": "a polish", "cut": "a cut"}

// spokenWord is a word of a list as people say it.
func spokenWord(fact, word string) string {
	if said, ok := spoken[fact][word]; ok {
		return said
	}
	return plainWord(word)
}

// seenInWords is a fact with its value as people say it: "the paint is soft". The value is as rules show it.
func seenInWords(fact rules.Fact, value string, known bool) string {
	s, ok := sayings[fact.Name]
	switch {
	case !known && ok:
		return s.unknown
	case !known:
		return fact.Label + " is not known"
	case !ok:
		return fact.Label + " is " + plainWord(value)
	case fact.Kind == rules.Flag && value == "yes":
		return s.yes
	case fact.Kind == rules.Flag:
		return s.no
	}
	if said, ok := oddNumber(fact.Name, value); ok {
		return said
	}
	if fact.Name == "trial.changed" && value == noChange {
		return "nothing was changed since the last trial"
	}
	if fact.Kind == rules.Word {
		value = spokenWord(fact.Name, value)
	}
	return strings.Replace(s.is, "%s", value, 1)
}

// oddNumber says what a number on the other side of nought means.
func oddNumber(fact, value string) (string, bool) {
	less, below := strings.CutPrefix(value, "-")
	switch fact {
	case "film.after_finish_um", "film.after_polish_um", "film.after_cut_um", "trial.after_repeat_um", "trial.after_step_up_um":
		who := strings.SplitN(sayings[fact].is, " leave", 2)[0]
		takes := " take "
		if fact == "film.after_finish_um" {
			takes = " takes "
		}
		return who + takes + less + " more film than may go", below
	case "trial.film_left_um":
		return "this trial took " + less + " more film than may go", below
	case "trial.short_by":
		if value == "0" {
			return "the goal is just reached", true
		}
		return "the goal is reached with " + less + " to spare", below
	case "trial.improved_by":
		if value == "0" {
			return "the marks have not changed", true
		}
		return "the marks got worse by " + less, below
	case "trial.trails_left":
		return "the step left no trails", value == "0"
	case "trial.gain_gu":
		return "gloss fell by " + less, below
	case "trial.headroom_left_gu":
		return "gloss is at the best that clear coat can show", below || strings.HasPrefix(value, "0 ")
	case "climate.dew_margin_c":
		return "the panel is " + less + " under the dew point", below
	case "history.takes_more_um":
		return "the step takes no more than is counted with, by the record", below || strings.HasPrefix(value, "0 ")
	case "film.taken_um":
		return "earlier visits took nothing", strings.HasPrefix(value, "0 ")
	}
	return "", false
}
