package page

import (
	"fmt"
	"io"
	"strings"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Webhooks lists webhooks.
func Webhooks(w io.Writer, all []*glossladderv1.Webhook, style Style) error {
	p := newPaper(style)
	if len(all) == 0 {
		p.para(0, say("Nobody is told. Add a webhook with: glossladder webhook add URL"))
		return p.writeTo(w)
	}
	rows := make([][]span, len(all))
	for i, hook := range all {
		rows[i] = []span{in(strong, idOf(hook.GetName())), toldWord(hook), say(hook.GetUrl())}
	}
	p.grid(0, []string{"webhook", "state", "address"}, rows)
	return p.writeTo(w)
}

func toldWord(hook *glossladderv1.Webhook) span {
	if hook.GetStopped() {
		return in(wary, "stopped")
	}
	return in(good, "told")
}

// Webhook shows one.
func Webhook(w io.Writer, hook *glossladderv1.Webhook, zone *time.Location, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, idOf(hook.GetName())), say("·"), toldWord(hook))
	p.item(titleAt, textAt, say("address"), say(hook.GetUrl()))
	if hook.GetAllowPrivate() {
		p.item(titleAt, textAt, say("network"), say("private and local addresses are allowed"))
	}
	if hook.GetStopped() {
		p.item(titleAt, textAt, say("because"), in(wary, hook.GetStoppedBecause()))
	}
	signs := "one secret signs"
	if hook.GetSecrets() > 1 {
		signs = fmt.Sprintf("%d secrets sign, while the receiver changes over", hook.GetSecrets())
	}
	p.item(titleAt, textAt, say("signature"), say(signs))
	p.item(titleAt, textAt, say("since"), say(when(hook.GetCreateTime(), zone)))
	p.item(titleAt, textAt, say("etag"), say(hook.GetEtag()))
	if hook.GetStopped() {
		p.blank()
		p.para(0, in(faint, "Next: glossladder webhook resume "+idOf(hook.GetName())))
	}
	return p.writeTo(w)
}

// Deliveries lists what a webhook is still to be told.
func Deliveries(w io.Writer, webhook string, owed *glossladderv1.ListWebhookDeliveriesResponse, zone *time.Location, style Style) error {
	p := newPaper(style)
	if len(owed.GetDeliveries()) == 0 {
		p.para(0, say("Everything was delivered."))
		return p.writeTo(w)
	}
	rows := make([][]span, len(owed.GetDeliveries()))
	givenUp := false
	for i, d := range owed.GetDeliveries() {
		state, next := in(wary, "owed"), when(d.GetDueTime(), zone)
		if d.GetState() == glossladderv1.DeliveryState_DELIVERY_STATE_GIVEN_UP {
			state, givenUp = in(grave, "given up"), true
		}
		rows[i] = []span{
			in(strong, idOf(d.GetJob())), say(fmt.Sprint(d.GetSequence())), say(strings.TrimPrefix(d.GetType(), "glossladder.job.")),
			state, say(fmt.Sprint(d.GetTries())), say(next), say(d.GetWhy()),
		}
	}
	p.grid(0, []string{"job", "event", "type", "state", "tries", "next", "last answer"}, rows)
	if owed.GetMore() {
		p.para(0, in(faint, "There are more; see --limit."))
	}
	if givenUp {
		p.blank()
		p.para(0, in(faint, "What was given up is sent again by: glossladder webhook redeliver "+webhook))
	}
	return p.writeTo(w)
}

// Booked shows the bay time of a job.
func Booked(w io.Writer, job *glossladderv1.Job, changed bool, zone *time.Location, style Style) error {
	p := newPaper(style)
	bay := job.GetBay()
	lead := fmt.Sprintf("Job %s is booked in %s.", idOf(job.GetName()), bay.GetBay())
	if !changed {
		lead = fmt.Sprintf("Job %s is booked in %s as it was.", idOf(job.GetName()), bay.GetBay())
	}
	p.para(0, say(lead))
	p.blocks(bay, zone)
	p.para(0, in(faint, "Calendar: glossladder job calendar "+idOf(job.GetName())))
	return p.writeTo(w)
}

// bayed is where and when the vehicle is worked on, in an event.
func bayed(bay *glossladderv1.BayBooking) string {
	if bay == nil {
		return ""
	}
	return fmt.Sprintf(", %s in %s", plural(len(bay.GetBlocks()), "stretch", "stretches"), bay.GetBay())
}

// blocks sets bay time, a line for each stretch.
func (p *paper) blocks(bay *glossladderv1.BayBooking, zone *time.Location) {
	rows := make([][]span, len(bay.GetBlocks()))
	for i, block := range bay.GetBlocks() {
		start, end := block.GetStartTime().AsTime().In(zone), block.GetEndTime().AsTime().In(zone)
		day := start.Format("Mon 2006-01-02")
		rows[i] = []span{say(strings.ReplaceAll(day, " ", nbsp)), say(start.Format("15:04") + "–" + end.Format("15:04")), say(block.GetWhat())}
	}
	p.grid(titleAt, []string{"day", "hours", "work"}, rows)
}
