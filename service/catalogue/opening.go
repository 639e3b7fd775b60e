package catalogue

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Opening is when the shop's bays are open.
type Opening struct {
	// Zone names the time zone of the IANA database whose wall clock the hours follow.
	Zone string
	// Week is the hours of each weekday, Sunday first, in order and apart; none for a day that is closed.
	Week [7][]Hours
	// Closed are days on which they stay shut, in order; only year, month and day count.
	Closed []time.Time
	// ShortestMin is for how many minutes a bay has to be free beside other bookings for a vehicle to be brought in. 0: however short.
	ShortestMin float64
}

// Hours are one stretch of opening, in minutes from midnight by the wall clock.
type Hours struct{ FromMin, ToMin int }

// Opening is when the shop's bays are open; false when the catalogue does not say. The lists are not to be changed.
func (c *Catalogue) Opening() (Opening, bool) {
	if c.opening == nil {
		return Opening{}, false
	}
	return *c.opening, true
}

// weekdays are the days as the file has them, in the order in which a week is written.
var weekdays = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

const hoursExample = `"08:00-12:00, 13:00-17:00"`

// opening reads when the bays are open; nil when the file does not say.
func (r *reader) opening(file record) *Opening {
	node := file.fields["opening"]
	if node == nil || node.Kind() == strictyaml.Refused {
		return nil
	}
	rec, ok := r.record(node, "opening", "zone", "week", "closed", "shortest_min")
	if !ok {
		return nil
	}
	out := &Opening{Zone: rec.zone()}
	rec.week(out)
	rec.closed(out)
	if rec.fields["shortest_min"] != nil {
		out.ShortestMin = rec.number("shortest_min", span{0, 24 * 60, "min"})
	}
	return out
}

// Zones finds a time zone by its name in the IANA database, as time.LoadLocation does.
type Zones func(name string) (*time.Location, error)

func (rec record) zone() string {
	name, at := rec.text("zone")
	if at == nil {
		return ""
	}
	unknown := name == "" || name == "Local" // which is another on each machine
	if !unknown && rec.r.zones != nil {
		_, err := rec.r.zones(name)
		unknown = err != nil
	}
	if unknown {
		rec.r.refuse(at, fmt.Sprintf("zone is %q", name), "write a time zone of the IANA database, such as Europe/Berlin")
	}
	return name
}

// week reads the hours of days or of stretches of days: "mon-fri".
func (rec record) week(into *Opening) {
	node := rec.fields["week"]
	switch {
	case node == nil:
		rec.missing("week")
		return
	case node.Kind() == strictyaml.Refused:
		return
	case node.Kind() != strictyaml.Map || len(node.Entries()) == 0:
		rec.r.refuse(node, "week is "+node.Kind().String(), "write days with their hours, as mon-fri: "+hoursExample)
		return
	}
	said := map[int]string{}
	for _, e := range node.Entries() {
		from, to, ok := daysOf(e.Key)
		if !ok {
			rec.r.problems = append(rec.r.problems, strictyaml.Problem{
				File: node.File(), Pos: e.KeyPos, Message: fmt.Sprintf("%s is no day", e.Key),
				Hint: "days are " + strings.Join(weekdays[:], ", ") + ", and stretches of them such as mon-fri",
			})
			continue
		}
		hours := rec.hours(e.Value)
		for day := from; day <= to; day++ {
			if before, twice := said[day]; twice {
				rec.r.problems = append(rec.r.problems, strictyaml.Problem{
					File: node.File(), Pos: e.KeyPos, Message: fmt.Sprintf("%s has hours already", weekdays[day]), Hint: "they are under " + before,
				})
				continue
			}
			said[day] = e.Key
			into.Week[(day+1)%7] = hours
		}
	}
}

// daysOf reads "mon" or "mon-fri" as places in weekdays.
func daysOf(text string) (from, to int, ok bool) {
	first, last, stretch := strings.Cut(text, "-")
	if !stretch {
		last = first
	}
	from, to = slices.Index(weekdays[:], first), slices.Index(weekdays[:], last)
	return from, to, from >= 0 && to >= from && (!stretch || to > from)
}

// hours reads "08:00-12:00, 13:00-17:00".
func (rec record) hours(node *strictyaml.Node) (out []Hours) {
	if node.Kind() == strictyaml.Refused {
		return nil
	}
	if node.Kind() != strictyaml.Scalar {
		rec.r.refuse(node, "the hours of a day are "+node.Kind().String(), "write them as "+hoursExample)
		return nil
	}
	last := 0
	for stretch := range strings.SplitSeq(node.Text(), ",") {
		opens, closes, ok := strings.Cut(strings.TrimSpace(stretch), "-")
		from, okFrom := clockOf(opens)
		to, okTo := clockOf(closes)
		switch {
		case !ok || !okFrom || !okTo:
			rec.r.refuse(node, fmt.Sprintf("%q is no stretch of hours", strings.TrimSpace(stretch)), "write them as "+hoursExample)
			return nil
		case to <= from:
			rec.r.refuse(node, fmt.Sprintf("%q does not end after it begins", strings.TrimSpace(stretch)), "a night shift is two stretches, to 24:00 and from 00:00 of the next day")
			return nil
		case from < last:
			rec.r.refuse(node, fmt.Sprintf("%q begins before the stretch before it ends", strings.TrimSpace(stretch)), "write stretches in order and apart")
			return nil
		}
		out, last = append(out, Hours{FromMin: from, ToMin: to}), to
	}
	return out
}

// clockOf reads a time of day in minutes; 24:00 is the end of the day.
func clockOf(text string) (minutes int, ok bool) {
	hours, rest, ok := strings.Cut(strings.TrimSpace(text), ":")
	h, errH := strconv.ParseUint(hours, 10, 8)
	m, errM := strconv.ParseUint(rest, 10, 8)
	if !ok || len(hours) != 2 || len(rest) != 2 || errH != nil || errM != nil || m > 59 || h*60+m > 24*60 {
		return 0, false
	}
	return int(h*60 + m), true
}

// closed reads the days on which the bays stay shut.
func (rec record) closed(into *Opening) {
	node := rec.fields["closed"]
	if node == nil || node.Kind() == strictyaml.Refused {
		return
	}
	if node.Kind() != strictyaml.List {
		rec.r.refuse(node, "closed is "+node.Kind().String(), "write a list of days, as [2026-12-24, 2026-12-31]")
		return
	}
	for _, item := range node.Items() {
		if item.Kind() == strictyaml.Refused {
			continue
		}
		day, err := time.Parse(time.DateOnly, item.Text())
		if err != nil {
			rec.r.refuse(item, fmt.Sprintf("%q is no day of the calendar", item.Text()), "write it as 2026-12-24")
			continue
		}
		into.Closed = append(into.Closed, day)
	}
	slices.SortFunc(into.Closed, time.Time.Compare)
}
