package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
	"steeltally/inventory/openwork"
	"steeltally/inventory/standing"
)

// Aside is an entry that is kept beside the record and waits for a person.
type Aside struct {
	Entry    string `json:"entry"`
	Happened string `json:"happened"`
	Noted    string `json:"noted"`
	Who      string `json:"who,omitempty"`
	What     string `json:"what"`
	Reason   string `json:"reason"`
	Unsafe   string `json:"unsafe,omitempty"` // what nobody may skate on by it
}

// Asides lists what is set aside.
func (d *Desk) Asides() ([]Aside, error) {
	asides, err := d.book.Asides()
	if err != nil {
		return nil, err
	}
	list := make([]Aside, len(asides))
	err = d.book.Read(func(v inventory.View) error {
		teller := inventory.Teller{View: v}
		for i := range asides {
			e := &asides[i].Event
			list[i] = Aside{
				Entry: e.Key.String(), Happened: e.Happened.Say(d.zone), Noted: e.Noted.In(d.zone).Format("2 Jan 2006 15:04"),
				Who: e.Who, What: d.subject(v, e.Body) + teller.Line(e), Reason: asides[i].Reason,
			}
			for _, unsafe := range unsafeAmong(asides[i : i+1]) {
				list[i].Unsafe = unsafe.String()
			}
		}
		return nil
	})
	return list, err
}

// TakeAside enters what is set aside as new entries of this book: those named, with what
// belongs to the same action, or all. What can't be entered is told and stays.
func (d *Desk) TakeAside(entries []string, all bool) (Done, error) {
	var done Done
	m, err := d.Moment()
	if err != nil {
		return done, err
	}
	actions, err := d.asideActions(entries, all)
	if err != nil {
		return done, err
	}
	var refused error
	for _, action := range actions {
		events, err := d.book.TakeAside(action, m.Now)
		if FailureOf(err) == Refused || FailureOf(err) == Mistyped {
			done.Notices = append(done.Notices, inventory.Notice{Text: fmt.Sprintf("%v stays set aside: %v", action[0].Event.Key, err), Hint: HintOf(err)})
			refused = err
			continue
		}
		if err != nil {
			return done, err
		}
		done.Events = append(done.Events, events...)
		d.options.stands(isRecorded)
	}
	if len(done.Events) == 0 && refused != nil {
		return done, refused
	}
	done.Notices = append(done.Notices, d.told()...)
	done.Lines, err = d.linesOf(done.Events)
	return done, err
}

// DropAside puts away what is set aside, and tells how many entries that were.
func (d *Desk) DropAside(entries []string, all bool) (int, error) {
	actions, err := d.asideActions(entries, all)
	if err != nil {
		return 0, err
	}
	which := slices.Concat(actions...)
	if err = d.book.DropAside(which); err == nil && len(which) > 0 {
		d.options.stands("%s put away", SayEntries(len(which)))
	}
	return len(which), err
}

// asideActions finds the actions that hold some entries.
func (d *Desk) asideActions(entries []string, all bool) ([][]book.Aside, error) {
	asides, err := d.book.Asides()
	if err != nil {
		return nil, err
	}
	actions := book.ActionsOf(asides)
	if all {
		return actions, nil
	}
	var named [][]book.Aside
	for _, text := range entries {
		count := len(named)
		for _, action := range actions {
			if slices.ContainsFunc(action, func(one book.Aside) bool { return isNamed(one.Event.Key, text) }) {
				named = append(named, action)
			}
		}
		if len(named) == count {
			return nil, inventory.Refuse("no entry "+inventory.Clip(text)+" is set aside", "steeltally setaside lists what is")
		}
	}
	return named, nil
}

// isNamed tells whether a key is what a person typed: 812@c3a9, with as many digits of the
// writer as they like.
func isNamed(key inventory.Key, text string) bool {
	number, writer, ok := strings.Cut(strings.ToLower(strings.TrimSpace(text)), "@")
	return ok && number == fmt.Sprint(key.Sequence) && writer != "" && strings.HasPrefix(string(key.Writer), writer)
}

// asideWork says what is set aside, and what the folder lacks since it was put back to an
// older copy of itself.
func (d *Desk) asideWork() ([]WorkItem, error) {
	var items []WorkItem
	_, lacking, err := d.book.Setback()
	if err != nil {
		return nil, err
	}
	if len(lacking) > 0 {
		items = append(items, WorkItem{Sort: workAside, What: putBack(lacking), Hint: putBackHint})
	}
	asides, err := d.book.Asides()
	if err != nil || len(asides) == 0 {
		return items, err
	}
	for _, one := range unsafeAmong(asides) {
		items = append(items, WorkItem{Sort: workUnsafeAside, What: one.String(), Hint: one.hint(), Events: []string{one.Entry}})
	}
	line := WorkItem{Sort: workAside, What: SayEntries(len(asides)) + " set aside: " + asides[0].Reason,
		Hint: "steeltally setaside shows them; setaside take enters them, setaside drop puts them away"}
	for _, one := range asides[:min(len(asides), shownEntries)] {
		line.Events = append(line.Events, one.Event.Key.String())
	}
	return append(items, line), nil
}

const (
	workAside       openwork.Sort = "aside"
	workUnsafeAside openwork.Sort = "unsafe-aside"

	putBackHint = "get them from another station's book or a backup: steeltally merge"
)

func putBack(lacking []book.Stretch) string {
	var which []string
	for _, one := range lacking {
		if one.From == one.Until {
			which = append(which, fmt.Sprintf("entry %d of %.4s is", one.From, string(one.Writer)))
		} else {
			which = append(which, fmt.Sprintf("entries %d to %d of %.4s are", one.From, one.Until, string(one.Writer)))
		}
	}
	return "this folder was put back to an older copy of itself: " + strings.Join(which, " not in it, ") + " not in it"
}

// afterSetback keeps the numbers that were given in entries which the folder lacks, so
// that no other piece gets them, and says so with the first entry after it.
func (d *Desk) afterSetback() error {
	back, lacking, err := d.book.Setback()
	if err != nil || back == nil {
		return err
	}
	last, err := d.book.OwnLast()
	if err != nil {
		return err
	}
	var kept []inventory.Draft
	stamp := book.Stamp{Who: d.options.Who, Noted: d.options.Now()}
	_, err = d.book.Record(stamp, func(v inventory.View) ([]inventory.Draft, error) {
		kept = deeds.KeepGiven(v, back.Numbers, inventory.At(stamp.Noted))
		return kept, nil
	})
	if err == nil && len(lacking) > 0 && (last == nil || len(kept) > 0 || isKept(last)) {
		d.toTell = append(d.toTell, inventory.Notice{Text: putBack(lacking), Hint: putBackHint})
	}
	return err
}

// isKept tells whether an event keeps numbers, as the first after a setback does.
func isKept(e *inventory.Event) bool {
	_, ok := e.Body.(*inventory.Reserved)
	return ok
}

// SayEntries counts entries.
func SayEntries(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// UnsafeAside is what nobody may skate on by an entry that is set aside: the record does
// not count it.
type UnsafeAside struct {
	Entry   string              `json:"entry"`
	Damages []inventory.Damaged `json:"damages"`
}

// UnsafeAsides are those about something, or all.
type UnsafeAsides struct {
	Entries []UnsafeAside
	unread  error // what is set aside can't be read, and may say more
}

// unsafeAsides finds all of them. As a rule nothing is set aside, which costs a look for
// one file.
func (d *Desk) unsafeAsides() UnsafeAsides {
	asides, err := d.book.Asides()
	return UnsafeAsides{unsafeAmong(asides), err}
}

// UnsafeAsides finds those about some players or pieces, or all where none is named.
func (d *Desk) UnsafeAsides(about ...inventory.Number) (some UnsafeAsides, err error) {
	all := d.unsafeAsides()
	if len(all.Entries) == 0 || len(about) == 0 {
		return all, nil
	}
	return some, d.ask(func(v inventory.View, at time.Time) error {
		some = all.about(v, at, about...)
		return nil
	})
}

// unsafeFor warns who does something with a piece, or for a player, of what is said of them
// there. What can't be read says so where it is looked at, not at every act.
func (d *Desk) unsafeFor(events []inventory.Event) []inventory.Notice {
	var about []inventory.Number
	for i := range events {
		about = append(about, inventory.NumbersOf(&events[i])...)
	}
	if len(about) == 0 {
		return nil
	}
	some, err := d.UnsafeAsides(about...)
	if err != nil || len(some.Entries) == 0 {
		return nil
	}
	return []inventory.Notice{{Text: some.Say(), Hint: "steeltally setaside"}}
}

func unsafeAmong(asides []book.Aside) []UnsafeAside {
	var list []UnsafeAside
	for i := range asides {
		e := &asides[i].Event
		if damages := inventory.UnsafeBy(e.Body); len(damages) > 0 {
			list = append(list, UnsafeAside{e.Key.String(), damages})
		}
	}
	return list
}

// damages are all that they say.
func (u UnsafeAsides) damages() []inventory.Damaged {
	var all []inventory.Damaged
	for _, one := range u.Entries {
		all = append(all, one.Damages...)
	}
	return all
}

// about keeps what is said of some players or pieces, and of what makes these up or hangs
// on them.
func (u UnsafeAsides) about(v inventory.View, at time.Time, some ...inventory.Number) UnsafeAsides {
	kept := UnsafeAsides{unread: u.unread}
	for _, one := range u.Entries {
		var damages []inventory.Damaged
		for _, damage := range one.Damages {
			if slices.ContainsFunc(some, func(n inventory.Number) bool { return isOn(v, damage, n, at) }) {
				damages = append(damages, damage)
			}
		}
		if len(damages) > 0 {
			kept.Entries = append(kept.Entries, UnsafeAside{one.Entry, damages})
		}
	}
	return kept
}

// isOn tells whether a damage is on a thing, on what belongs to it, or on what a player uses.
func isOn(v inventory.View, damage inventory.Damaged, whole inventory.Number, at time.Time) bool {
	switch {
	case whole.Kind() != inventory.KindPlayer:
		return slices.Contains(standing.Parts(v, whole, at), damage.Piece)
	case v.Entity(inventory.RefOf(damage.Piece)) == nil:
		return damage.Player == whole // as the entry says, where the record does not know the piece
	}
	return userOf(v, damage.Piece, at) == whole
}

// userOf is the player who skates on a piece, or will; zero where nobody does, also of a
// runner that came off for good.
func userOf(v inventory.View, piece inventory.Number, at time.Time) inventory.Number {
	switch thing := v.Entity(inventory.RefOf(piece)).(type) {
	case *inventory.Runner:
		if set := thing.SetAt(at); set != 0 && standing.RunnerState(v, thing, at) != inventory.Removed {
			return userOf(v, set, at)
		}
	case *inventory.Holder:
		if pair := thing.BootAt(at).Pair; pair != 0 {
			return userOf(v, pair, at)
		}
	case *inventory.Set:
		return thing.Player
	case *inventory.Pair:
		return thing.Player
	}
	return 0
}

// String is what Say says, and how to look at them.
func (u UnsafeAsides) String() string {
	said := u.Say()
	if said != "" {
		said += ": steeltally setaside"
	}
	return said
}

// Say says them where a player or a piece is looked at; it is empty where there are none.
func (u UnsafeAsides) Say() string {
	var words []string
	for _, one := range u.Entries {
		words = append(words, sayUnsafe(one.Damages))
	}
	switch {
	case u.unread != nil:
		return "what is set aside can't be read, and may say DO NOT SKATE (" + u.unread.Error() + ")"
	case len(words) > 0:
		return "what is set aside says DO NOT SKATE (" + strings.Join(words, "; ") + ")"
	}
	return ""
}

func sayUnsafe(damages []inventory.Damaged) string {
	words := make([]string, len(damages))
	for i, damage := range damages {
		words[i] = damage.Piece.Short() + " " + damage.Where()
	}
	return strings.Join(words, ", ")
}

// String says one of them where everything that waits is listed.
func (u UnsafeAside) String() string {
	return "DO NOT SKATE: " + sayUnsafe(u.Damages) + ", by an entry that is set aside and not in the record"
}

func (u UnsafeAside) hint() string {
	return "look at it before anybody skates on it; steeltally setaside take " + u.Entry + " enters it"
}

// notices warn of each.
func (u UnsafeAsides) notices() []inventory.Notice {
	var notices []inventory.Notice
	for _, one := range u.Entries {
		notices = append(notices, inventory.Notice{Text: one.String(), Hint: one.hint()})
	}
	return notices
}
