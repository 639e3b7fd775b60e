package cli

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/encoding/protojson"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

type problemList = strictyaml.Problems

// bayFlags say when the work may start and when the bay is open.
type bayFlags struct {
	start, open, zone, calendar, uid, before string
	sequence                                 int32
}

const usualHours = "Mon-Fri 08:00-12:00,13:00-17:00"

func (b *bayFlags) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&b.start, "start", "", "when the vehicle is there, by the shop's clock, as 2026-12-01T08:00; lays the work into the bay's hours")
	cmd.Flags().StringVar(&b.open, "open", "", "when the bay is open, as \""+usualHours+"\", several parted by semicolons (left out: as the shop's catalogue says)")
	cmd.Flags().StringVar(&b.zone, "zone", "", "time zone of --start and --open, as Europe/Berlin (left out: that of this machine)")
	cmd.Flags().StringVar(&b.calendar, "calendar", "", "with --start: also write the stretches to this file, as iCalendar")
	cmd.Flags().StringVar(&b.uid, "uid", "", "with --start: name of the booking, which stays when it moves (left out: made from label and start)")
	cmd.Flags().Int32Var(&b.sequence, "sequence", 0, "with --uid: how often the booking was changed")
	cmd.Flags().StringVar(&b.before, "before", "", "with --uid and --sequence: the answer before, as --output json gave it; stretches that are no more are cancelled in the calendar")
}

func (b *bayFlags) asked() bool { return b.start != "" || b.calendar != "" }

// into asks for bay time, and gives the zone that times are told in.
func (b *bayFlags) into(request *glossladderv1.PlanJobRequest) (*time.Location, error) {
	if !b.asked() {
		return zoneOf(request), nil
	}
	if b.start == "" {
		return nil, &usageError{"--calendar needs --start: when is the vehicle there?"}
	}
	zone, opening, err := b.hours()
	if err != nil {
		return nil, err
	}
	start, err := time.ParseInLocation("2006-01-02T15:04", b.start, zone)
	if err != nil {
		return nil, &usageError{fmt.Sprintf("--start %s: write it as 2026-12-01T08:00", b.start)}
	}
	request.Bay = &glossladderv1.BayRequest{StartTime: stamp(start), Opening: opening, Uid: b.uid, Sequence: b.sequence}
	request.Bay.Before, err = b.blocksBefore()
	return zone, err
}

// hours is the zone in which times are told, and when the bay is open; nil where the shop's catalogue is to say.
func (b *bayFlags) hours() (in *time.Location, open *glossladderv1.OpeningHours, err error) {
	in = zone()
	if b.zone != "" {
		if in, err = time.LoadLocation(b.zone); err != nil {
			return nil, nil, &usageError{fmt.Sprintf("--zone %s: this is not a time zone of the IANA database, such as Europe/Berlin", b.zone)}
		}
	}
	if b.open == "" {
		return in, nil, nil
	}
	week, err := openingOf(b.open)
	switch {
	case err != nil:
		return nil, nil, err
	case b.zone == "":
		return nil, nil, &usageError{"--open needs --zone: whose clock are the hours by?"}
	}
	return in, &glossladderv1.OpeningHours{Week: week, Zone: b.zone}, nil
}

// blocksBefore reads the stretches of the answer before.
func (b *bayFlags) blocksBefore() ([]*glossladderv1.BayBlock, error) {
	if b.before == "" {
		return nil, nil
	}
	text, err := os.ReadFile(b.before)
	if err != nil {
		return nil, fmt.Errorf("--before: %w", err)
	}
	said := &glossladderv1.PlanJobResponse{}
	if err := (protojson.UnmarshalOptions{DiscardUnknown: true}).Unmarshal(text, said); err != nil {
		return nil, fmt.Errorf("--before %s is no answer of plan --output json: %w", b.before, err)
	}
	if said.GetBay() == nil {
		return nil, &usageError{fmt.Sprintf("--before %s has no bay time; it was asked without --start", b.before)}
	}
	return said.GetBay().GetBlocks(), nil
}

// zoneOf is the zone of the opening hours that the file gives; nil when there are none, or it is not known here.
func zoneOf(request *glossladderv1.PlanJobRequest) *time.Location {
	zone, err := time.LoadLocation(request.GetBay().GetOpening().GetZone())
	if err != nil {
		return nil
	}
	return zone
}

func (b *bayFlags) save(bay *glossladderv1.BayTime) error {
	if b.calendar == "" {
		return nil
	}
	if err := os.WriteFile(b.calendar, []byte(bay.GetCalendar()), 0o644); err != nil { //nolint:gosec // a calendar is to be read by other programs
		return fmt.Errorf("write the calendar: %w", err)
	}
	return nil
}

// openingOf reads "Mon-Fri 08:00-12:00,13:00-17:00; Sat 09:00-13:00".
func openingOf(text string) ([]*glossladderv1.OpenStretch, error) {
	var out []*glossladderv1.OpenStretch
	for part := range strings.SplitSeq(text, ";") {
		days, hours, ok := strings.Cut(strings.TrimSpace(part), " ")
		from, to, err := daysOf(days)
		if !ok || err != nil {
			return nil, badOpening(part)
		}
		for day := from; day <= to; day++ {
			for stretch := range strings.SplitSeq(hours, ",") {
				opens, closes, ok := strings.Cut(strings.TrimSpace(stretch), "-")
				a, errA := minutesOf(opens)
				b, errB := minutesOf(closes)
				if !ok || errA != nil || errB != nil || b <= a {
					return nil, badOpening(part)
				}
				out = append(out, &glossladderv1.OpenStretch{Day: glossladderv1.Weekday(day), FromMin: a, ToMin: b})
			}
		}
	}
	return out, nil
}

func badOpening(part string) error {
	return &usageError{fmt.Sprintf("--open %q: write it as %q", strings.TrimSpace(part), usualHours)}
}

// daysOf reads "Mon-Fri" or "Sat" as the days of ISO 8601, Monday the first.
func daysOf(text string) (from, to int, err error) {
	first, last, ok := strings.Cut(text, "-")
	if !ok {
		last = first
	}
	from, to = dayOf(first), dayOf(last)
	if from == 0 || to < from {
		return 0, 0, fmt.Errorf("%q is no day", text)
	}
	return from, to, nil
}

func dayOf(text string) int {
	for i, day := range []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"} {
		if strings.EqualFold(strings.TrimSpace(text), day) {
			return i + 1
		}
	}
	return 0
}

// minutesOf reads a time of day; 24:00 is the end of the day.
func minutesOf(text string) (int32, error) {
	hours, minutes, ok := strings.Cut(strings.TrimSpace(text), ":")
	h, errH := strconv.ParseUint(hours, 10, 8)
	m, errM := strconv.ParseUint(minutes, 10, 8)
	if !ok || errH != nil || errM != nil || m > 59 || h*60+m > 24*60 {
		return 0, fmt.Errorf("%q is no time of day", text)
	}
	return int32(h*60 + m), nil
}

// budgetOf reads "400" or "400.00 EUR" exactly; without a currency it is that of the catalogue.
func budgetOf(text string) (*glossladderv1.Money, error) {
	amount, code, _ := strings.Cut(strings.TrimSpace(text), " ")
	whole, fraction, _ := strings.Cut(amount, ".")
	const places = 9
	if len(fraction) > places {
		return nil, &usageError{fmt.Sprintf("--budget %s: that is finer than any currency", text)}
	}
	units, err := strconv.ParseUint(whole, 10, 32)
	nanos, errNanos := strconv.ParseUint(fraction+strings.Repeat("0", places-len(fraction)), 10, 32)
	if err != nil || errNanos != nil {
		return nil, &usageError{fmt.Sprintf("--budget %s: write it as 400 or \"400.00 EUR\"", text)}
	}
	return &glossladderv1.Money{CurrencyCode: strings.TrimSpace(code), Units: int64(units), Nanos: int32(nanos)}, nil
}
