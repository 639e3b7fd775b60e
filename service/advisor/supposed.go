package advisor

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// suppositions are how people suppose that something were otherwise, by fact: with the range at %s, and for a flag as it
// would be then.
var suppositions = map[string]saying{
	"paint.system":        {is: "if the top layer were %s"},
	"paint.softness":      {is: "if the paint were %s"},
	"paint.shade":         {is: "if the colour were %s"},
	"paint.haze_prone":    {yes: "if the paint hazed readily", no: "if the paint were known not to haze readily"},
	"paint.age_years":     {is: "if the age of the paint were %s"},
	"paint.cured_days":    {is: "if the age of the repaint were %s"},
	"goal.level":          {is: "if the owner wanted it %s"},
	"goal.protection":     {is: "if %s went on afterwards"},
	"panel.part":          {is: "if the part were %s"},
	"panel.clean":         {yes: "if the panel were clean", no: "if the panel were not clean"},
	"panel.in_sun":        {yes: "if the panel stood in the sun", no: "if the panel were out of the sun"},
	"panel.repaint_known": {yes: "if the panel were known to be repainted", no: "if the panel were known not to be repainted"},
	"panel.sensor_behind": {yes: "if a sensor sat behind the panel", no: "if no sensor sat behind the panel"},
	"panel.edge_or_line":  {yes: "if the area held an edge or body line", no: "if the area held no edge or body line"},
	"panel.taped":         {yes: "if the edges were taped", no: "if the edges were not taped"},
	"film.taken_um":       {is: "if the film taken by earlier visits were %s"},
	"defect.kind":         {is: "if the marks were %s"},
	"defect.severity":     {is: "if their severity were %s"},
	"defect.catches_nail": {yes: "if a fingernail caught in them", no: "if no fingernail caught in them"},

	"film.lowest_um":       {is: "if the lowest film reading were %s"},
	"film.clear_um":        {is: "if the lowest reading of the clear coat were %s"},
	"film.edge_drop_um":    {is: "if the fall of the film toward the edge were %s"},
	"gloss.at20_gu":        {is: "if gloss at 20° were %s"},
	"gloss.at60_gu":        {is: "if gloss at 60° were %s"},
	"gloss.at85_gu":        {is: "if gloss at 85° were %s"},
	"haze.meter_hu":        {is: "if haze by the meter were %s"},
	"climate.air_c":        {is: "if the air temperature were %s"},
	"climate.humidity_pct": {is: "if the humidity were %s"},
	"climate.panel_c":      {is: "if the panel temperature were %s"},

	"trial.severity_left":  {is: "if the severity left were %s"},
	"trial.trails_left":    {is: "if the severity of the trails left were %s"},
	"trial.wipe_off":       {is: "if the residue came away %s"},
	"trial.panel_c":        {is: "if the heat of the panel in the trial were %s"},
	"trial.panel_wiped":    {yes: "if the panel had been wiped before reading", no: "if the panel had not been wiped before reading"},
	"trial.pad_loaded":     {yes: "if the pad were loaded", no: "if the pad were not loaded"},
	"trial.color_transfer": {yes: "if the pad took up colour", no: "if the pad took up no colour"},
	"trial.gain_gu":        {is: "if the gloss gain were %s"},
	"trial.haze":           {is: "if the change in haze were %s"},
}

// supposed is that a lever were in a range: "if the paint were hard or harder instead of soft".
func supposed(l *lever, where string) string {
	s, ok := suppositions[l.fact.Name]
	if !ok {
		return fmt.Sprintf("if %s were %s", l.fact.Label, where)
	}
	if l.fact.Kind == rules.Flag {
		if where == "yes" {
			return s.yes
		}
		return s.no
	}
	if now := l.nowInWords(); now != "" {
		where += " instead of " + now
	}
	return strings.Replace(s.is, "%s", where, 1)
}

// leads are how a sentence begins about a fact, where its label would not do.
var leads = map[string]string{
	"defect.kind": "the kind of mark", "paint.system": "the top layer", "paint.softness": "the softness", "paint.shade": "the shade",
	"defect.severity": "the severity", "defect.catches_nail": "the nail test", "goal.level": "the goal", "paint.age_years": "the age of the paint",
	"paint.cured_days": "the age of the repaint", "panel.part": "the part", "film.lowest_um": "the film", "film.clear_um": "the clear coat",
	"panel.repaint_known": "whether it was repainted", "paint.haze_prone": "whether the paint hazes readily",
	"trial.wipe_off": "the wipe-off", "trial.color_transfer": "colour on the pad", "panel.clean": "whether the panel is clean",
	"panel.in_sun": "whether the sun falls on it", "panel.taped": "whether the edges are taped",
}

// leadOf names what a sentence is about.
func leadOf(fact *rules.Fact) string {
	if lead, ok := leads[fact.Name]; ok {
		return lead
	}
	return "the " + fact.Label
}

// comparatives are how the ends of an order are said: "soft or softer".
var comparatives = map[string][2]string{
	"paint.softness": {"softer", "harder"}, "paint.shade": {"lighter", "darker"}, "goal.level": {"less", "more"},
}

// rangeInWords is places as people say them: "at least 114.4 µm", "hard or harder", "matte, satin or wrap". Places of what
// has no order need not be neighbours.
func rangeInWords(l *lever, places []stretch) string {
	if !l.ordered() {
		return fewWords(l, places)
	}
	lo, hi := places[0].lo, places[len(places)-1].hi
	if l.number() {
		return numberRange(l, lo, hi)
	}
	ends, ok := comparatives[l.fact.Name]
	switch {
	case lo == hi:
		return l.show(lo)
	case lo == 0 && hi == l.size-1:
		return "anything at all"
	case hi == l.size-1 && ok:
		return l.show(lo) + " or " + ends[1]
	case lo == 0 && ok:
		return l.show(hi) + " or " + ends[0]
	}
	var words []string
	for k := lo; k <= hi; k++ {
		words = append(words, l.show(k))
	}
	return inWords(words)
}

func numberRange(l *lever, lo, hi int) string {
	switch {
	case lo == hi:
		return l.show(lo)
	case lo == 0 && hi == l.size-1:
		return "anything at all"
	case hi == l.size-1:
		return "at least " + l.show(lo)
	case lo == 0:
		return "at most " + l.show(hi)
	}
	return showNumber(l.numberAt(lo), "") + " to " + l.show(hi)
}

// mostWords is how many words of a list are told before they are counted.
const mostWords = 4

func fewWords(l *lever, places []stretch) string {
	var words []string
	for _, p := range places {
		for k := p.lo; k <= p.hi; k++ {
			words = append(words, l.show(k))
		}
	}
	if over := len(words) - mostWords + 1; over > 1 {
		words = append(slices.Clip(words[:mostWords-1]), fmt.Sprintf("one of %d others", over))
	}
	return inWords(words)
}
