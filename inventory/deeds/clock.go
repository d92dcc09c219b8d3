package deeds

import (
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// How far a noted time may lie from the one before, of the same machine, before somebody
// is asked about the clock; and from another machine's, whose clock may stand otherwise.
const (
	mostBack      = time.Minute
	mostAhead     = 24 * time.Hour
	mostBackOther = 24 * time.Hour
)

// Noted is when entries were noted last: by this machine, zero where it noted none yet, and
// by any.
type Noted struct{ Own, Any time.Time }

// Doubts tells whether a clock that says now lies far from what was noted last, and when
// that was: before it, or more than a day ahead with no entry between.
func (n Noted) Doubts(now time.Time) (last time.Time, doubted bool) {
	switch {
	case !n.Own.IsZero() && now.Before(n.Own.Add(-mostBack)):
		return n.Own, true
	case n.Own.IsZero() && now.Before(n.Any.Add(-mostBackOther)):
		return n.Any, true
	}
	last = n.Own
	if last.IsZero() || n.Any.After(last) && !n.Any.After(now.Add(mostBack)) {
		last = n.Any
	}
	return last, now.After(last.Add(mostAhead))
}

// KeepClock says of clocks in doubt that they stood right.
type KeepClock struct{ Doubts []inventory.ClockDoubt }

// Decide settles the doubts.
func (d KeepClock) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Doubts) == 0 {
		return out, inventory.Refuse("no clock is in doubt", "steeltally clock shows what is")
	}
	out.record(m.Happened, &inventory.ClockRight{Doubts: doubtKeys(d.Doubts)})
	return out, nil
}

func doubtKeys(doubts []inventory.ClockDoubt) []inventory.Key {
	keys := make([]inventory.Key, len(doubts))
	for i := range doubts {
		keys[i] = doubts[i].Event
	}
	return keys
}

// SetClock says that a machine's clock stood wrong when it noted entries, and by how much
// they happened later. What a person dated stays where it is.
type SetClock struct {
	Events []inventory.Event      // that were noted under it, by one writer, oldest first
	By     time.Duration          // negative: earlier
	Doubts []inventory.ClockDoubt // that this settles
}

// Decide sets right what has its time from that clock, in one entry.
func (d SetClock) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	by := d.By.Truncate(time.Second)
	if by == 0 {
		return out, inventory.RefuseValue("a clock that is set right by nothing stays as it is", "say by how much, such as --by -2d3h")
	}
	set := &inventory.ClockSet{By: int64(by / time.Second), Doubts: doubtKeys(d.Doubts)}
	dated := map[inventory.When]bool{}
	for i := range d.Events {
		e := &d.Events[i]
		if e.Happened != inventory.At(e.Noted) && !dated[e.Happened] { // a correction notes again what the clock dated
			continue
		}
		dated[e.Happened] = true
		if err := checkSet(e, by, m); err != nil {
			return out, err
		}
		set.Of, set.Entries = e.Writer, extend(set.Entries, e.Sequence)
	}
	if len(set.Entries) == 0 {
		return out, inventory.Refuse("none of these entries has its time from a clock", "steeltally clock shows what is in doubt")
	}
	d.tellStrays(v, by, &out)
	out.record(m.Happened, set)
	return out, nil
}

// checkSet refuses a time that can't be right.
func checkSet(e *inventory.Event, by time.Duration, m Moment) error {
	right := inventory.At(e.Noted.Add(by))
	if right.After(m.Now.Add(clockTolerance)) || !right.InYears(m.Now.Location()) {
		return inventory.RefuseValue(fmt.Sprintf("entry %s would have been made on %s", e.Key, right.Say(m.Now.Location())),
			"set this machine's clock first; then say when the first of them was truly made")
	}
	return nil
}

// extend adds a sequence to runs of them.
func extend(runs []inventory.Run, sequence uint64) []inventory.Run {
	if n := len(runs); n > 0 && runs[n-1].First+runs[n-1].Count == sequence {
		runs[n-1].Count++
		return runs
	}
	return append(runs, inventory.Run{First: sequence, Count: 1})
}

// strays is what a player's work went to because a wrong clock looked up what was on.
type strays struct {
	player  inventory.Number
	set     inventory.Number
	entries []string
}

// tellStrays says which work went to steel that was not on when it was truly done: what a
// command means is settled when it is given, by the clock of that moment.
func (d SetClock) tellStrays(v inventory.View, by time.Duration, out *Outcome) {
	moved := d.movedSteel()
	var found []*strays
	for i := range d.Events {
		e := &d.Events[i]
		player, set := workedOn(e)
		on, ok := v.Entity(inventory.RefOf(set)).(*inventory.Set)
		if !ok || moved[set] || e.Happened != inventory.At(e.Noted) || standing.SetState(v, on, e.Noted.Add(by)) == inventory.On {
			continue
		}
		stray := straysOf(&found, player, set)
		stray.entries = append(stray.entries, e.Key.String())
	}
	for _, stray := range found {
		stray.tell(v, out)
	}
}

func straysOf(found *[]*strays, player, set inventory.Number) *strays {
	for _, stray := range *found {
		if stray.player == player && stray.set == set {
			return stray
		}
	}
	*found = append(*found, &strays{player: player, set: set})
	return (*found)[len(*found)-1]
}

func (s *strays) tell(v inventory.View, out *Outcome) {
	who, set := s.player.Short(), s.set.Short()
	if player, err := inventory.PlayerOf(v, s.player); err == nil {
		who = player.Name
	}
	if found, err := inventory.FindSet(v, s.set); err == nil {
		set = found.Letter + " " + set
	}
	out.tell(fmt.Sprintf("%s: entries that went to set %s, which was not on then: %d", who, set, len(s.entries)),
		"take them back, and enter them again with --at: steeltally undo "+strings.Join(s.entries, " "))
}

// movedSteel are the sets that went on or came off under the clock: where they were is not
// known before it is set right.
func (d SetClock) movedSteel() map[inventory.Number]bool {
	moved := map[inventory.Number]bool{}
	for i := range d.Events {
		switch b := d.Events[i].Body.(type) {
		case *inventory.PutIn:
			moved[b.Set] = true
		case *inventory.TakenOut:
			moved[b.Set] = true
		case *inventory.Riveted:
			moved[b.Set] = true
		}
	}
	return moved
}

// workedOn is whose steel an entry is about, as far as it was taken for what was on a boot.
func workedOn(e *inventory.Event) (player, set inventory.Number) {
	switch b := e.Body.(type) {
	case *inventory.Ground:
		if b.Pair != 0 {
			return b.Player, b.Set
		}
	case *inventory.Measured:
		if b.Reference == inventory.Fitted {
			return b.Player, b.Set
		}
	}
	return 0, 0
}
