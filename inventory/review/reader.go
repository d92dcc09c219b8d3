package review

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Reader reads lives from the record at one instant.
type Reader struct {
	view     inventory.View
	from, at time.Time
	zone     *time.Location
	sessions Sessions
	unworked []inventory.Unworked
}

// NewReader reads what happened from an instant until another; sessions are the club's
// between them, see ReadSessions.
func NewReader(v inventory.View, sessions Sessions, from, until time.Time) *Reader {
	return &Reader{view: v, from: from, at: until, zone: inventory.ClubOf(v).Location(), sessions: sessions}
}

// damages are those of the time that is read.
func (r *Reader) damages(m *inventory.Marks) []inventory.Dated[inventory.Damaged] {
	return slices.DeleteFunc(slices.Clone(m.Damages.Until(r.at)), func(d inventory.Dated[inventory.Damaged]) bool {
		return d.When.Start.Before(r.from)
	})
}

// Who is a player's name, and whether he is a goalkeeper.
func (r *Reader) Who(n inventory.Number) (name string, goalkeeper bool) {
	player, err := inventory.PlayerOf(r.view, n)
	if err != nil {
		return "", false
	}
	return player.Name, player.Goalkeeper()
}

// Life is what a piece went through, and whether the record knows it. A piece of which
// that can't be worked out is kept apart, see Unworked.
func (r *Reader) Life(n inventory.Number) (life *Life, known bool) {
	err := inventory.Guard(func() error {
		life, known = r.life(n)
		return nil
	})
	if err != nil {
		r.unworked = append(r.unworked, inventory.Unworked{About: n, Cause: err})
	}
	return life, known
}

// Unworked are the pieces that were asked for and could not be worked out.
func (r *Reader) Unworked() []inventory.Unworked { return r.unworked }

func (r *Reader) life(n inventory.Number) (*Life, bool) {
	switch state := r.view.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		return r.ofRunner(state), true
	case *inventory.Holder:
		return r.ofHolder(state), true
	}
	return nil, false
}

func (r *Reader) ofRunner(runner *inventory.Runner) *Life {
	life := &Life{
		Number: runner.Number, Model: runner.Model, Size: runner.Size, Lot: runner.Lot, Order: runner.Order,
		Side: runner.SideAt(r.at), InUse: standing.RunnerState(r.view, runner, r.at) != inventory.Removed,
		Damages: r.damages(&runner.Marks), runner: runner, tag: runner.KnownTag(), FromTag: runner.KnownTag() != nil,
	}
	wear := runner.WearAt(r.at)
	life.Grinds, life.Passes, life.Unknown = wear.Grinds, wear.Passes, wear.UnknownWorks > 0
	life.New = wear.HeightNew
	if !life.InUse && !groundSinceMeasured(runner, r.at) {
		life.Final = wear.HeightFinal
	}
	for _, work := range runner.Works.Until(r.at) {
		if work.Value.Hollow != nil {
			life.Hollow = *work.Value.Hollow
		}
	}
	life.addStints(runner.Stints(r.at), r)
	life.elsewhere = runner.GroundElsewhere(life.Set, r.at)
	r.addPlayer(life)
	life.hands = r.handsOn(runner)
	return life
}

// groundSinceMeasured tells whether steel was ground off after its last height: then that
// is not the height at which it was done with.
func groundSinceMeasured(runner *inventory.Runner, at time.Time) bool {
	readings, works := runner.Readings.Until(at), runner.Works.Until(at)
	if len(readings) == 0 || len(works) == 0 {
		return false
	}
	return works[len(works)-1].When.Start.After(readings[len(readings)-1].When.Start)
}

// addStints adds when, where and how long a runner was in use.
func (l *Life) addStints(stints []inventory.Stint, r *Reader) {
	if len(stints) == 0 {
		return
	}
	last := stints[len(stints)-1]
	l.In, l.Out, l.Fitted = stints[0].In, last.Out, stints[0].In
	l.Player, l.Set, l.Place, l.Reason = last.Player, last.Set, last.Order, inventory.Why(last.Reason)
	known := true
	for _, stint := range stints {
		out := stint.Out
		if stint.Open {
			out = inventory.At(r.at)
		}
		known = l.use(stint.In, out) && known
	}
	l.addUse(known, r)
}

// addPlayer adds what the player's record says of the time at which it came off.
func (r *Reader) addPlayer(l *Life) {
	player, err := inventory.PlayerOf(r.view, l.Player)
	if err != nil {
		return
	}
	when := r.at
	if !l.InUse && !l.Out.Unknown() {
		when = l.Out.Start
	}
	l.Sweater = player.Sweater(when)
	l.Change = player.SpecsAt(when).ChangeHeight
	if !l.InUse {
		_, l.Refused = player.RefusalOf(l.Set, when)
	}
}

func (r *Reader) ofHolder(holder *inventory.Holder) *Life {
	if tag := holder.KnownTag(); tag != nil {
		return lifeOfTag(*tag, r.zone)
	}
	life := &Life{
		Number: holder.Number, Model: holder.Model, Size: holder.Size, Lot: holder.Lot, Order: holder.Order, Side: holder.Side,
		Damages: r.damages(&holder.Marks), InUse: standing.HolderState(r.view, holder, r.at) != inventory.Removed,
	}
	life.addBoots(holder.Boots.Until(r.at), r)
	if len(life.Damages) > 0 {
		life.Reason = inventory.Why(life.Damages[0].Value.Mode)
	}
	r.addPlayer(life)
	return life
}

// addBoots adds on which boots a holder was, and how long.
func (l *Life) addBoots(boots inventory.Timeline[inventory.OnBoot], r *Reader) {
	known := true
	for i, boot := range boots {
		if boot.Value.Pair == 0 {
			l.Out = boot.When
			continue
		}
		if l.In.Unknown() {
			l.In, l.Fitted = boot.When, boot.When
		}
		l.Out = inventory.When{}
		if pair, err := inventory.FindPair(r.view, boot.Value.Pair); err == nil {
			l.Player = pair.Player
		}
		until := inventory.At(r.at)
		if i+1 < len(boots) {
			until = boots[i+1].When
		}
		known = l.use(boot.When, until) && known
	}
	l.addUse(known, r)
}

// lifeOfTag is what a tag alone tells.
func lifeOfTag(facts inventory.TagFacts, zone *time.Location) *Life {
	life := &Life{
		Number: facts.Piece, FromTag: true, Player: facts.Player, Sweater: facts.Sweater, Side: facts.Side,
		In: facts.In, Out: facts.Out, Grinds: facts.Grinds, Passes: facts.Passes, Unknown: facts.Unknown,
		New: facts.New, Final: facts.Final, Reason: facts.Reason, tag: &facts,
	}
	if facts.Hollow != nil {
		life.Hollow = *facts.Hollow
	}
	if dayKnown(facts.In) && dayKnown(facts.Out) {
		days := daysBetween(facts.In.Start, facts.Out.Start, zone)
		life.Days = &days
	}
	return life
}
