package deeds

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// EndEmergency is how a player got back on the ice, and what had broken.
type EndEmergency struct {
	Player       inventory.Number
	Emergency    inventory.Key  // zero: his latest one that is open,
	Side         inventory.Side // of this side; empty: of either
	Did          inventory.Remedy
	With         []inventory.Number // the pair, the set or the holder that helped
	Broke        string             // holder, runner or nothing; empty: said before, or still not known
	Mode         inventory.Mode
	Zone         inventory.Zone
	Cause        string
	Minutes      *float64
	ShiftsMissed *int
	Permanent    bool               // nothing is left to be mended
	Sure         []inventory.Number // pieces of which it was said a second time that they are sound
	Note         string
}

// Decide records what was done. What broke becomes a damage of the time it happened;
// what did not is found sound.
func (d EndEmergency) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	crisis, err := d.Crisis(player, m.at())
	if err != nil {
		return out, err
	}
	if err := d.check(); err != nil {
		return out, err
	}
	if err := d.settle(v, m, crisis, &out); err != nil {
		return out, err
	}
	body := &inventory.EmergencyDone{
		Emergency: crisis.Event, Player: d.Player, Did: d.Did, With: d.With, Minutes: d.Minutes,
		ShiftsMissed: d.ShiftsMissed, Temporary: d.Did.Temporary() && !d.Permanent, Note: d.Note,
	}
	if err := d.skated(v, m, player, crisis.Value.Pair, body, &out); err != nil {
		return out, err
	}
	if body.Temporary {
		out.tell("mended for the moment only", "steeltally work lists it until then; steeltally emergency close "+player.Typed(m.at())+" ends it")
	}
	if err := d.carry(v, m, player, crisis.Value, &out); err != nil {
		return out, err
	}
	out.record(m.Happened, body)
	for _, open := range player.OpenCrises(m.at()) {
		if open.Event != crisis.Event && open.Value.Done == nil {
			typed := player.Typed(m.at())
			out.tell("nobody said how the one on the "+string(open.Value.Side)+" ended", "steeltally emergency done "+typed+" --side "+string(open.Value.Side))
		}
	}
	return out, nil
}

func (d EndEmergency) check() error {
	if err := oneOf("what was done", d.Did, inventory.Remedies()); err != nil {
		return inventory.RefuseValue(err.Error(), "")
	}
	if d.Broke != "" {
		if err := oneOf("what broke", d.Broke, []string{BrokeHolder, BrokeRunner, BrokeNothing}); err != nil {
			return inventory.RefuseValue(err.Error(), "")
		}
	}
	if d.Did == inventory.RemedyNothing && d.Mode != "" {
		return inventory.RefuseValue("nothing was broken, and "+d.Broke+" "+string(d.Mode)+": only one of them can be", "leave out what broke, or say what got him back")
	}
	if (d.Broke == BrokeHolder || d.Broke == BrokeRunner) != (d.Mode != "") {
		return inventory.RefuseValue("what broke and how it broke go together", "such as --broke holder --mode crack --zone rear-tower")
	}
	return ReportDamage{Mode: cmp.Or(d.Mode, inventory.ModeOther), ShiftsMissed: d.ShiftsMissed, Minutes: d.Minutes}.check()
}

// carriesOff tells whether what broke comes off by what was done.
func (d EndEmergency) carriesOff() bool {
	return d.Did == inventory.RemedyHolder && d.Broke == BrokeHolder || d.Did == inventory.RemedySteel && d.Broke == BrokeRunner
}

// Crisis is the emergency that is meant.
func (d EndEmergency) Crisis(player *inventory.Player, at time.Time) (inventory.Dated[inventory.Crisis], error) {
	for i := len(player.Crises) - 1; i >= 0; i-- {
		crisis := player.Crises[i]
		if d.Side != "" && crisis.Value.Side != d.Side {
			continue
		}
		if d.Emergency == crisis.Event || slices.Contains(crisis.Value.Also, d.Emergency) || d.Emergency == (inventory.Key{}) && crisis.Value.Done == nil && !crisis.When.After(at) {
			return crisis, nil
		}
	}
	return inventory.Dated[inventory.Crisis]{}, inventory.Refuse("no emergency of "+player.Name+" waits for an answer", "steeltally emergency "+player.Typed(at)+" --side right begins one")
}

// settle says of the suspects what was wrong with them.
func (d EndEmergency) settle(v inventory.View, m Moment, crisis inventory.Dated[inventory.Crisis], out *Outcome) error {
	if d.Broke == "" {
		if len(crisis.Value.Suspects) > 0 {
			out.tell("nobody has said what broke; do not skate on any of it until then", "steeltally inspect PIECE when it is sound, steeltally damage PIECE --mode crack when not")
		}
		return nil
	}
	pair, err := inventory.FindPair(v, crisis.Value.Pair)
	if err != nil {
		return err
	}
	call := CallEmergency{Side: crisis.Value.Side, Broke: d.Broke}
	var broken []inventory.Number
	if d.Broke != BrokeNothing {
		if broken = call.broken(pair, crisis.When.Start); len(broken) == 0 {
			return inventory.Refuse(fmt.Sprintf("no %s on that boot is in this book", d.Broke), "leave out what broke, or enter it first: steeltally rivet on")
		}
	}
	for _, n := range broken {
		report := ReportDamage{
			Piece: n, Mode: d.Mode, Zone: d.Zone, Cause: d.Cause, ShiftsMissed: d.ShiftsMissed, Minutes: d.Minutes, Note: d.Note,
		}
		if _, stands := report.standing(v, m.at()); stands {
			continue
		}
		damage, err := report.Decide(v, Moment{crisis.When, m.Now})
		if err != nil {
			return err
		}
		if d.carriesOff() {
			damage.Notices = nil
			damage.tell(n.Short()+" is unsafe: DO NOT SKATE", "mark it, and keep it: steeltally tag "+n.Short()+" --out tags.pdf")
		}
		out.add(damage)
	}
	return d.clear(v, m, crisis, broken, out)
}

// clear finds the suspects sound where somebody looked and nothing was broken, unless
// another damage says otherwise. Where one of them broke, nobody has said that he looked
// at the others: they stay marked until he does.
func (d EndEmergency) clear(v inventory.View, m Moment, crisis inventory.Dated[inventory.Crisis], broken []inventory.Number, out *Outcome) error {
	body := &inventory.Inspected{Sound: true, Note: "after the emergency"}
	for _, n := range crisis.Value.Suspects {
		if !slices.Contains(broken, n) && standing.OwnSafety(v, n, m.at()) != standing.DoNotSkate {
			body.Pieces = append(body.Pieces, n)
		}
	}
	if len(body.Pieces) == 0 {
		return nil
	}
	if d.Broke != BrokeNothing {
		for _, n := range body.Pieces {
			out.tell("look at "+n.Short()+", too: nobody skates on it until then", "when it is sound: steeltally inspect "+n.Short())
		}
		return nil
	}
	out.record(m.Happened, body)
	return checkLifted(v, body.Pieces, d.Sure, m.at())
}

// skated notes that a spare pair was played on.
func (d EndEmergency) skated(v inventory.View, m Moment, player *inventory.Player, broken inventory.Number, body *inventory.EmergencyDone, out *Outcome) error {
	if d.Did != inventory.RemedySpare {
		return nil
	}
	spare := d.with(inventory.KindPair)
	if spare == 0 {
		pair, err := inventory.PairInRole(v, player, inventory.RoleSpare, m.at())
		if err != nil {
			return err
		}
		spare = pair.Number
		body.With = append(body.With, spare)
	}
	if spare == broken {
		return inventory.Refuse(spare.Short()+" is the pair that broke",
			"name another with --with, or what was done to this one: --did steel, --did holder")
	}
	skated, err := NoteSkated{Pair: spare, Game: true}.Decide(v, m)
	out.add(skated)
	return err
}

// CloseEmergency says that what was mended for the moment is mended for good.
type CloseEmergency struct {
	Player    inventory.Number
	Emergency inventory.Key // zero: all of his that are open
	Note      string
}

// Decide closes what is open. What nobody may skate on stays so.
func (d CloseEmergency) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	for _, crisis := range player.OpenCrises(m.at()) {
		if d.Emergency != (inventory.Key{}) && d.Emergency != crisis.Event {
			continue
		}
		if crisis.Value.Done == nil {
			out.tell(fmt.Sprintf("nobody said how the emergency of %s ended", crisis.When.Say(inventory.ClubOf(v).Location())), "steeltally emergency done says how the next one ended")
		}
		out.record(m.Happened, &inventory.EmergencyClosed{Emergency: crisis.Event, Player: d.Player, Note: d.Note})
	}
	if first, err := inventory.PairInRole(v, player, inventory.RoleFirst, m.at()); err == nil {
		if n := standing.UnsafePart(v, first.Number, m.at()); n != 0 {
			out.tell(n.Short()+" on his first pair: DO NOT SKATE", "take it off before he skates")
		}
		for _, side := range inventory.Sides() {
			if first.HolderAt(side, m.at()) == 0 && len(first.Boot(side).Holders.Until(m.at())) > 0 || first.SeatAt(side, m.at()).Runner == 0 {
				out.tell(fmt.Sprintf("the %s boot of his first pair lacks its holder or its steel: not to be skated on", side), "steeltally work says what it lacks")
			}
		}
	}
	if len(out.Drafts) == 0 {
		return out, inventory.Refuse("no emergency of "+player.Name+" is open", "steeltally work lists what is open")
	}
	return out, nil
}
