package desk

import (
	"slices"
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
