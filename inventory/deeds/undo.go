package deeds

import (
	"fmt"
	"slices"

	"steeltally/inventory"
)

// Undo voids events, in words; the voided lines stay visible.
type Undo struct {
	Events []inventory.Event
	Words  string
}

// Decide refuses to take away what something later stands on.
func (d Undo) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Events) == 0 {
		return out, inventory.Refuse("there is nothing to undo", "steeltally history shows what is recorded")
	}
	correction, err := voiding(v, d.Events, d.Words)
	if err != nil {
		return out, err
	}
	for i := range d.Events {
		tellWorksSince(v, &d.Events[i], correction.Voids, &out)
	}
	out.record(m.Happened, correction)
	return out, nil
}

// tellWorksSince says that works which went to a set because it was on stay there.
func tellWorksSince(v inventory.View, e *inventory.Event, going []inventory.Key, out *Outcome) {
	b, ok := e.Body.(*inventory.PutIn)
	if !ok {
		return
	}
	set, ok := v.Entity(inventory.RefOf(b.Set)).(*inventory.Set)
	if !ok {
		return
	}
	rest := set.Works.Without(going)
	if since := len(rest) - len(rest.Before(e.Happened)); since > 0 {
		out.tell(fmt.Sprintf("%d works since then stay logged on set %s", since, set.Letter),
			"say what they were on: steeltally undo "+b.Player.Short()+fmt.Sprintf(" --last %d --was-set LETTER", since))
	}
}

// voiding is the correction that voids events, once nothing stands on them.
func voiding(v inventory.View, events []inventory.Event, words string) (*inventory.Correction, error) {
	correction := &inventory.Correction{Words: words}
	for i := range events {
		correction.Voids = append(correction.Voids, events[i].Key)
		correction.About = append(correction.About, inventory.NumbersOf(&events[i])...)
		correction.Moves = correction.Moves || movesSteel(events[i].Body)
		correction.Revives = correction.Revives || len(inventory.Voids(&events[i])) > 0
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	for _, n := range correction.About {
		if madeOnlyBy(v.Entity(inventory.RefOf(n)), correction.Voids) {
			correction.Unmakes = append(correction.Unmakes, n)
		}
	}
	for i := range events {
		if err := checkNothingStandsOn(v, &events[i], correction.Voids); err != nil {
			return nil, err
		}
	}
	for _, n := range correction.About {
		if err := checkStillFollows(v.Entity(inventory.RefOf(n)), n, correction.Voids); err != nil {
			return nil, err
		}
	}
	return correction, nil
}

// KeepAll says of events that look like a conflict, or of one that looks like a slip,
// that all of them are right.
type KeepAll struct {
	Events []inventory.Event
	Words  string
}

// Decide settles the conflict without voiding anything.
func (d KeepAll) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Events) == 0 {
		return out, inventory.RefuseValue("name the entries that are right", "steeltally history shows the numbers of the entries")
	}
	correction := &inventory.Correction{Words: d.Words}
	for i := range d.Events {
		correction.Keeps = append(correction.Keeps, d.Events[i].Key)
		correction.About = append(correction.About, inventory.NumbersOf(&d.Events[i])...)
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	out.record(m.Happened, correction)
	return out, nil
}
