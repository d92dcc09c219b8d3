package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/outlook"
)

// What is said of a set that is on; see package outlook.
type (
	Due      = outlook.Due
	Standing = outlook.Standing
)

// The standings, the most urgent first.
const (
	DoNotSkate   = outlook.DoNotSkate
	DueNow       = outlook.DueNow
	ComingUp     = outlook.ComingUp
	NeedsMeasure = outlook.NeedsMeasure
	NeedsMore    = outlook.NeedsMore
	SaidNo       = outlook.SaidNo
)

// DueList is what is due, the most urgent first.
type DueList struct {
	At      time.Time
	Until   time.Time // the schedule's last day; zero where nothing is to come
	Players []Due     // of the sets on first pairs
	Others  []Due     // and on other pairs
	Checked int       // forecasts that were looked back on
	Held    int       // and held

	Aside    UnsafeAsides         // what the record does not count
	Unworked []inventory.Unworked // those of whom it could not be worked out
	Notices  []inventory.Notice
}

// lookedBack is over how many past forecasts it is told how many held.
const lookedBack = 60

// DueAsked says of whom, and how far, it is asked what is due.
type DueAsked struct {
	Players []string  // nobody: everybody
	Until   string    // only those who may be due by then; empty: all
	Trip    string    // only those who come along and may be due before it is over
	Planned []float64 // passes on each day from today, instead of the schedule's
}

// Due tells which steel is due and when.
func (d *Desk) Due(asked DueAsked) (DueList, error) {
	at := d.Instant()
	list := DueList{At: at}
	only, until, err := d.dueAsked(asked, at)
	if err == nil && asked.Trip != "" {
		only, until, err = d.travellers(asked.Trip, only, at)
	}
	if err != nil {
		return list, err
	}
	if list.Aside, err = d.UnsafeAsides(only...); err != nil {
		return list, err
	}
	o, err := d.look(at)
	if err != nil {
		return list, err
	}
	looked := make(chan error)
	go func() {
		looked <- inventory.Guard(func() error {
			check, err := o.LookBack(lookedBack)
			list.Checked, list.Held = check.Checked, check.Held
			return err
		})
	}()
	first, others, unworked := o.Due(only...)
	list.lookedBack(KeepFault(d.options, "how forecasts did", <-looked))
	d.options.keepUnworked("what is due", unworked)
	list.Until, list.Players, list.Others, list.Unworked = o.Until(), first, others, unworked
	if len(asked.Planned) > 0 {
		if err := list.plan(o, asked.Planned); err != nil {
			return list, err
		}
	}
	list.keepUntil(until)
	return list, nil
}

// DueAtHand is what is due of everybody, from what was learnt before.
func DueAtHand(options Options, o *Outlook) DueList {
	list := DueList{At: options.Now(), Until: o.Until()}
	list.Players, list.Others, list.Unworked = o.Due()
	options.keepUnworked("what is due", list.Unworked)
	return list
}

// lookedBack says where nobody can tell how past forecasts did.
func (l *DueList) lookedBack(err error) {
	if err != nil {
		l.Checked, l.Held = 0, 0
		l.Notices = append(l.Notices, inventory.Notice{Text: "how past ranges did could not be worked out: " + err.Error(), Hint: HintOf(err)})
	}
}

func (d *Desk) dueAsked(asked DueAsked, at time.Time) (only []inventory.Number, until time.Time, err error) {
	if asked.Until != "" {
		if until, err = d.dayTyped(asked.Until); err != nil {
			return nil, until, err
		}
	}
	err = d.book.Read(func(v inventory.View) error {
		for _, text := range asked.Players {
			n, err := lookUpPlayer(v, text, at)
			if err != nil {
				return err
			}
			only = append(only, n)
		}
		return nil
	})
	return only, until, err
}

// travellers are the players who come along on a trip, of some or of all, and its end.
func (d *Desk) travellers(name string, some []inventory.Number, at time.Time) (only []inventory.Number, until time.Time, err error) {
	err = d.book.Read(func(v inventory.View) error {
		trip, ok := v.Entity(inventory.TripRef(name)).(*inventory.Trip)
		if !ok || !trip.Entered() {
			return &inventory.Refusal{Reason: "no trip is named " + name, Hint: "steeltally trip list shows them"}
		}
		until = trip.To.End
		for _, m := range inventory.RosterOf(v).Members {
			if trip.Comes(m.Player, !m.Gone) && (len(some) == 0 || slices.Contains(some, m.Player)) {
				only = append(only, m.Player)
			}
		}
		return nil
	})
	if err == nil && len(only) == 0 {
		err = &inventory.Refusal{Reason: "nobody who was asked for comes along on trip " + name, Hint: "steeltally trip list shows the trips"}
	}
	if err == nil && !until.After(at) {
		err = &inventory.Refusal{Reason: "trip " + name + " is over", Hint: "steeltally due tells of everybody"}
	}
	return only, until, err
}

// dayTyped is the first instant after a day as typed.
func (d *Desk) dayTyped(text string) (time.Time, error) {
	when, err := inventory.ParseWhen(text, d.zone)
	if err != nil || when.Unknown() {
		return time.Time{}, &inventory.BadValue{Reason: text + " is not a day", Hint: "write it as 2025-12-24"}
	}
	if when.Exact() {
		return when.Start, nil
	}
	return when.End, nil
}

// plan takes planned passes in place of the schedule's.
func (l *DueList) plan(o *outlook.Outlook, passes []float64) error {
	for _, list := range [][]Due{l.Players, l.Others} {
		for i := range list {
			planned, err := o.Planned(list[i], passes)
			if err != nil {
				return &inventory.BadValue{Reason: err.Error(), Hint: "such as --planned 15,10,10,15"}
			}
			list[i] = planned
		}
	}
	return nil
}

// keepUntil leaves out who will surely last until a time.
func (l *DueList) keepUntil(until time.Time) {
	if until.IsZero() {
		return
	}
	l.Players, l.Others = outlook.MayBeDue(l.Players, until), outlook.MayBeDue(l.Others, until)
}

// RefuseChange records that a player would not change.
func (d *Desk) RefuseChange(player, pair, until, answer string) (Done, error) {
	review, err := inventory.ParseWhen(until, d.zone)
	if err != nil {
		return Done{}, &inventory.BadValue{Reason: err.Error()}
	}
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		deed := deeds.RefuseChange{Answer: answer, Review: review}
		var err error
		deed.Player, deed.Pair, err = d.playerAndPair(v, player, pair)
		return deed, err
	})
}

// DueSection is a part of the list of what is due, under one heading.
type DueSection struct {
	Heading string
	Columns []string // empty: what stands in the rows explains itself
	Rows    []DueRow
}

// DueRow is one set that is on, in words.
type DueRow struct {
	Due   Due
	Cells []string
}

// dueHeadings are the parts of the list, in their order.
var dueHeadings = [...]struct {
	standing Standing
	heading  string
}{
	{DoNotSkate, "DO NOT SKATE"},
	{DueNow, "CHANGE NOW"},
	{ComingUp, "COMING UP"},
	{NeedsMeasure, "CAN'T SAY UNTIL MEASURED"},
	{NeedsMore, "CAN'T SAY"},
	{SaidNo, "ASKED, SAID NO"},
}

// DueSections puts what is due into words, the most urgent first. Parts with nothing in
// them are left out.
func DueSections(all []Due, zone *time.Location) []DueSection {
	var sections []DueSection
	for _, part := range dueHeadings {
		section := DueSection{Heading: part.heading}
		if part.standing == ComingUp {
			section.Columns = []string{"passes left", "due", "ready", "measure"}
		}
		for _, due := range all {
			if due.Standing == part.standing {
				row := DueRow{due, dueCells(due, zone)}
				if due.Never {
					row.Cells[len(row.Cells)-1] += "; never ground"
				}
				section.Rows = append(section.Rows, row)
			}
		}
		if len(section.Rows) > 0 {
			sections = append(sections, section)
		}
	}
	return sections
}

func dueCells(due Due, zone *time.Location) []string {
	switch due.Standing {
	case DoNotSkate:
		var wrong []string
		for _, damage := range due.Unsafe {
			wrong = append(wrong, damage.Piece.Short()+": "+damage.Where())
		}
		return []string{strings.Join(wrong, ", "), "take it off now"}
	case DueNow:
		return []string{sayDueHeights(due), "ready: " + sayReady(due)}
	case NeedsMeasure:
		return []string{sayUnmeasured(due, zone), due.ToDo}
	case NeedsMore:
		return []string{due.CannotSay, due.ToDo}
	case SaidNo:
		no := due.Refusal
		return []string{fmt.Sprintf("asked %s: %s", no.When.SayDay(zone), no.Value.Answer), "ask again " + no.Value.Review.SayDay(zone), sayDueHeights(due)}
	}
	left := fmt.Sprintf("%.0f (%.0f to %.0f)", due.Passes.Middle, due.Passes.Low, due.Passes.High)
	return []string{left, sayDueDates(due), sayReady(due), sayMeasure(due)}
}

// SayDueSet names the set and, where it is not the first, its pair: "B (spare pair)".
func SayDueSet(due Due) string {
	if due.Role == "first" {
		return due.Letter
	}
	return due.Letter + " (" + due.Role.Pair() + ")"
}

// sayHeights is where the runners stand against the change height.
func sayDueHeights(due Due) string {
	line := ""
	for _, side := range due.Sides {
		if side.Now != nil {
			line += fmt.Sprintf("%s about %.1f, ", side.Side, float64(*side.Now))
		}
	}
	if due.Change == nil {
		return line
	}
	if due.Refusal != nil && due.Standing == DueNow {
		line += "said no before, "
	}
	return line + "change at " + due.Change.String()
}

// sayUnmeasured is what the runners last measured, and why that is not enough.
func sayUnmeasured(due Due, zone *time.Location) string {
	if due.WhyNot != "" {
		return sayLast(due, zone) + ": " + due.WhyNot
	}
	return sayLast(due, zone) + ": " + due.CannotSay
}

// sayLast is what the runners last measured: "last left 17.51, right 17.57 on 1 Jan 2026".
func sayLast(due Due, zone *time.Location) string {
	line, on := "", ""
	for _, side := range due.Sides {
		if side.Last != nil {
			line += fmt.Sprintf("%s %.2f, ", side.Side, float64(side.Last.Height))
			on = side.Last.When.SayDay(zone)
		}
	}
	if line == "" {
		return "never measured"
	}
	return "last " + strings.TrimSuffix(line, ", ") + " on " + on
}

// sayDueDates is the first day due: "Thu 4 Dec (Wed 3 Dec to Sat 6 Dec)".
func sayDueDates(due Due) string {
	if due.Dates == nil {
		return due.CannotSay
	}
	after := func(day time.Time) string {
		if day.IsZero() {
			return "after " + sayDay(due.Until)
		}
		return sayDay(day)
	}
	if due.Dates.Low.IsZero() {
		return "after " + sayDay(due.Until)
	}
	if due.Dates.Low.Equal(due.Dates.High) {
		return after(due.Dates.Middle)
	}
	return fmt.Sprintf("%s (%s to %s)", after(due.Dates.Middle), after(due.Dates.Low), after(due.Dates.High))
}

func sayDay(day time.Time) string { return day.Format("Mon 2 Jan") }

// sayReady names the sets that could go on: "B, C (not ground)".
func sayReady(due Due) string {
	var sets []string
	for _, set := range due.Ready {
		word := set.Letter
		if !set.Ground {
			word += " (not ground)"
		}
		sets = append(sets, word)
	}
	if len(sets) == 0 {
		return "NONE"
	}
	return strings.Join(sets, ", ")
}

// sayMeasure is when the next height is worth its while.
func sayMeasure(due Due) string {
	switch {
	case due.Measure.InPasses < 1:
		return "now"
	case due.Measure.On.IsZero():
		return fmt.Sprintf("in %.0f passes", due.Measure.InPasses)
	}
	return sayDay(due.Measure.On)
}
