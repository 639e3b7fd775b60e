package advisor

// Said says whether there are words for a fact, known and not known.
func Said(fact string) bool {
	s := sayings[fact]
	return s.unknown != "" && (s.is != "" || s.yes != "" && s.no != "")
}

// Supposes says whether there are words for supposing a fact otherwise.
func Supposes(fact string) bool {
	s := suppositions[fact]
	return s.is != "" || s.yes != "" && s.no != ""
}

// Levers are the facts that an explanation of a panel and its trials can move.
func (a *Advisor) Levers(in Inspection, trials []Trial) ([]string, error) {
	e, _, _, giveBack, err := a.enquire(in, Question{Trials: trials})
	if err != nil {
		return nil, err
	}
	defer giveBack()
	var out []string
	for _, l := range e.levers() {
		out = append(out, l.fact.Name)
	}
	return out, nil
}
