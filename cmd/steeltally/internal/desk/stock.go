package desk

import (
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// StockIn brings pieces into stock and gives their numbers.
func (d *Desk) StockIn(deed deeds.StockIn) ([]inventory.Number, Done, error) {
	done, err := d.do(deed)
	var numbers []inventory.Number
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.StockedIn); ok {
			numbers = append(numbers, body.Pieces...)
		}
	}
	return numbers, done, err
}

// DeclareModel says what a model fits.
func (d *Desk) DeclareModel(deed deeds.DeclareModel) (Done, error) { return d.do(deed) }

// AddPair gives a player a pair and tells its number.
func (d *Desk) AddPair(player string, role inventory.Role) (inventory.Number, Done, error) {
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		number, err := resolvePlayer(v, player, d.Instant())
		return deeds.AddPair{Player: number, Role: role}, err
	})
	return made(done, func(b *inventory.PairNoted) inventory.Number { return b.Pair }), done, err
}

// GiveRole makes a pair its player's first, spare or third.
func (d *Desk) GiveRole(pair, role string) (Done, error) {
	n, err := inventory.ParseNumber(pair)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.GiveRole{Pair: n, Role: inventory.Role(role)})
}

// SetAdded is a new set.
type SetAdded struct {
	Letter string
	Number inventory.Number
}

// AddSet matches two runners as a set.
func (d *Desk) AddSet(player, letter, left, right string) (SetAdded, Done, error) {
	done, err := d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		deed := deeds.MakeSet{Letter: letter}
		var err error
		if deed.Player, err = resolvePlayer(v, player, d.Instant()); err != nil {
			return nil, err
		}
		if deed.Left, err = inventory.ScannedNumber(left); err != nil {
			return nil, err
		}
		deed.Right, err = inventory.ScannedNumber(right)
		return deed, err
	})
	added := SetAdded{}
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.SetMade); ok {
			added = SetAdded{body.Letter, body.Set}
		}
	}
	return added, done, err
}

// SetLine is a set in a list.
type SetLine struct {
	PieceLine
	Letter string           `json:"set"`
	Left   inventory.Number `json:"left"`
	Right  inventory.Number `json:"right"`
	Order  int              `json:"order,omitempty"`
}

// Sets lists a player's sets, the latest first; all of them or those not done with.
func (d *Desk) Sets(player string, all bool) ([]SetLine, error) {
	lines := []SetLine{}
	err := d.ask(func(v inventory.View, at time.Time) error {
		number, err := lookUpPlayer(v, player, at)
		if err != nil {
			return err
		}
		p, err := inventory.PlayerOf(v, number)
		if err != nil {
			return err
		}
		for _, lettered := range slices.Backward(p.Sets) {
			set, err := inventory.FindSet(v, lettered.Set)
			if err != nil {
				return err
			}
			if state := standing.StateOf(v, set.Number, at); all || state != inventory.Removed {
				lines = append(lines, setLine(v, set, at))
			}
		}
		return nil
	})
	return lines, err
}

func setLine(v inventory.View, set *inventory.Set, at time.Time) SetLine {
	return SetLine{pieceLine(v, set.Number, at), set.Letter, set.Left, set.Right, set.Order(at)}
}

// Put puts pieces at a place.
func (d *Desk) Put(pieces []string, place inventory.Place) (Done, error) {
	deed := deeds.PutAt{Place: place}
	for _, text := range pieces {
		n, err := inventory.ScannedNumber(text)
		if err != nil {
			return Done{}, err
		}
		deed.Pieces = append(deed.Pieces, n)
	}
	return d.act(func(v inventory.View, _ deeds.Moment) (deeds.Deed, error) {
		var err error
		deed.Place, err = named(v, place)
		return deed, err
	})
}

// ReserveBlank keeps numbers for blank tags of a kind of piece, said in a word.
func (d *Desk) ReserveBlank(piece string, count int) ([]inventory.Number, Done, error) {
	done, err := d.do(deeds.ReserveBlank{Piece: inventory.KindNamed(piece), Count: count})
	for i := range done.Events {
		if body, ok := done.Events[i].Body.(*inventory.Reserved); ok {
			return body.Numbers(), done, err
		}
	}
	return nil, done, err
}

// BlankTag is the number on a scanned blank tag; zero where the text is no such thing.
func (d *Desk) BlankTag(text string) (inventory.Number, error) {
	n, err := inventory.ScannedNumber(text)
	if err != nil {
		return 0, nil
	}
	err = d.ask(func(v inventory.View, _ time.Time) error {
		if !inventory.IsBlank(v, n) {
			n = 0
		}
		return nil
	})
	return n, err
}

// StillBlank is said of a blank tag where nobody can be asked what it sticks on.
func StillBlank(n inventory.Number) error {
	return &inventory.Refusal{
		Reason: fmt.Sprintf("%s is a blank tag: no piece has it yet", n.Short()),
		Hint:   fmt.Sprintf("enter what it sticks on: steeltally stockin %s --number %s --model NAME --size MM", n.Kind(), n.Short()),
	}
}

// ActionNumbers are the numbers of the action card, in its order.
func ActionNumbers() []inventory.Number {
	var numbers []inventory.Number
	for _, action := range inventory.Actions() {
		numbers = append(numbers, action.Number)
	}
	return numbers
}

// RivetOn puts a holder on a boot of a pair.
func (d *Desk) RivetOn(holder, pair string, side inventory.Side) (Done, error) {
	h, err := inventory.ParseNumber(holder)
	if err != nil {
		return Done{}, err
	}
	p, err := inventory.ParseNumber(pair)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.RivetOn{Holder: h, Pair: p, Side: side})
}

// RivetOff takes a holder off its boot.
func (d *Desk) RivetOff(holder string) (Done, error) {
	h, err := inventory.ParseNumber(holder)
	if err != nil {
		return Done{}, err
	}
	return d.do(deeds.RivetOff{Holder: h})
}

// PutIn puts a player's set on one of his pairs.
func (d *Desk) PutIn(player, set, pair string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		deed := deeds.PutSetIn{}
		var err error
		deed.Player, deed.Pair, err = d.playerAndPair(v, player, pair)
		if err != nil {
			return nil, err
		}
		deed.Set, err = setOf(v, deed.Player, set)
		return deed, err
	})
}

// playerAndPair finds whose pair is meant.
func (d *Desk) playerAndPair(v inventory.View, player, pair string) (inventory.Number, inventory.Number, error) {
	target, err := resolve(v, player, d.Instant())
	if err != nil {
		return 0, 0, err
	}
	if target.Player == 0 {
		return 0, 0, notAPlayer(player)
	}
	if pair == "" {
		return target.Player, target.Pair, nil
	}
	n, err := pairOf(v, target.Player, pair, d.Instant())
	return target.Player, n, err
}

// Off says what comes off and why.
type Off struct {
	Who     string // player, pair, set, or one runner
	Pair    string
	Side    inventory.Side
	Reason  inventory.Reason
	Heights inventory.Both[geometry.Millimetre]
	AsRead  bool
	Place   *inventory.Place
}

// TakeOut takes steel off.
func (d *Desk) TakeOut(off Off) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		target, err := resolve(v, off.Who, d.Instant())
		if err != nil {
			return nil, err
		}
		if target.Runner != 0 {
			return off.ofRunner(target.Runner)
		}
		return d.takeOut(v, off)
	})
}

// ofRunner takes one runner out; its height can be given for either side.
func (o Off) ofRunner(n inventory.Number) (deeds.Deed, error) {
	height := o.Heights.Left
	if height == nil {
		height = o.Heights.Right
	}
	return deeds.TakeRunnerOut{Runner: n, Reason: o.Reason, Height: height, AsRead: o.AsRead, Place: o.Place}, nil
}

func (d *Desk) takeOut(v inventory.View, off Off) (deeds.TakeOut, error) {
	deed := deeds.TakeOut{Side: off.Side, Reason: off.Reason, Heights: off.Heights, AsRead: off.AsRead, Place: off.Place}
	var err error
	deed.Player, deed.Pair, err = d.playerAndPair(v, off.Who, off.Pair)
	return deed, err
}

// Change takes the set that is on off and puts another on.
func (d *Desk) Change(off Off, set string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		take, err := d.takeOut(v, off)
		if err != nil {
			return nil, err
		}
		on, err := setOf(v, take.Player, set)
		return deeds.ChangeSteel{TakeOut: take, Set: on}, err
	})
}

// PutOn puts a set on in place of what is on, if anything is.
func (d *Desk) PutOn(off Off, set string) (Done, error) {
	return d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
		take, err := d.takeOut(v, off)
		if err != nil {
			return nil, err
		}
		on, err := setOf(v, take.Player, set)
		if err != nil {
			return nil, err
		}
		pair, err := pairMeant(v, Target{Player: take.Player, Pair: take.Pair}, d.Instant())
		if err == nil && pair.SetAt(d.Instant()) == 0 {
			return deeds.PutSetIn{Player: take.Player, Pair: take.Pair, Set: on}, nil
		}
		return deeds.ChangeSteel{TakeOut: take, Set: on}, nil
	})
}

// nearlyLow is how far above the change height steel may last have measured that is now
// low: about two weeks of grinding. Common practice, no source.
const nearlyLow geometry.Millimetre = 1

// WhyOff is why steel comes off: what was said, else what is recorded to be broken of it,
// else that it is low. Doubt says what speaks against that; else it is empty.
func (d *Desk) WhyOff(off Off) (reason inventory.Reason, doubt inventory.Notice, err error) {
	if off.Reason != "" {
		return off.Reason, doubt, nil
	}
	if reason, err = d.brokenReason(off); reason != "" || err != nil {
		return reason, doubt, err
	}
	low, err := d.LooksLow(off)
	if err == nil && !low {
		doubt.Text = "no reason was given, so that the steel counts as low and is done with; by its height it is not low"
		doubt.Hint = "if it came off for something else take this back, and do it again with the reason, such as rotate"
	}
	return inventory.ReasonLow, doubt, err
}

// brokenReason is the reason that a recorded damage gives steel that comes off, or nothing.
func (d *Desk) brokenReason(off Off) (reason inventory.Reason, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		for _, n := range d.comingOff(v, off, at) {
			broken := slices.DeleteFunc(inventory.MarksOf(v, n).OpenDamages(at), func(damage inventory.Damaged) bool { return !damage.Mode.ForbidsUse() })
			if len(broken) > 0 {
				reason = inventory.ReasonThatForbids(broken)
			}
		}
		return nil
	})
	return reason, err
}

// comingOff lists the runners that come off; where they can't be found that is said when
// they shall.
func (d *Desk) comingOff(v inventory.View, off Off, at time.Time) []inventory.Number {
	target, err := resolve(v, off.Who, at)
	if err != nil || target.Runner != 0 {
		return nonZero(target.Runner)
	}
	if target.Player, target.Pair, err = d.playerAndPair(v, off.Who, off.Pair); err != nil {
		return nil
	}
	pair, err := pairMeant(v, target, at)
	if err != nil {
		return nil
	}
	var runners []inventory.Number
	for _, side := range inventory.Sides() {
		if off.Side == "" || off.Side == side {
			runners = append(runners, nonZero(pair.SeatAt(side, at).Runner)...)
		}
	}
	return runners
}

func nonZero(n inventory.Number) []inventory.Number {
	if n == 0 {
		return nil
	}
	return []inventory.Number{n}
}

// LooksLow tells whether what comes off may be low by now. Where that is not known it may
// be.
func (d *Desk) LooksLow(off Off) (bool, error) {
	low := false
	err := d.ask(func(v inventory.View, at time.Time) error {
		player, pair, err := d.playerAndPair(v, off.Who, off.Pair)
		if err != nil {
			low = true // it is said where it comes off
			return nil
		}
		p, err := inventory.PlayerOf(v, player)
		if err != nil {
			return err
		}
		set, err := setOn(v, Target{Player: player, Pair: pair}, at)
		change := p.SpecsAt(at).ChangeHeight
		if err != nil || change == nil {
			low = true
			return nil
		}
		for _, side := range []inventory.Side{inventory.Left, inventory.Right} {
			height := off.Heights.Of(side)
			if height == nil {
				height = lastHeight(v, set, side, at)
			}
			low = low || height == nil || *height <= *change+nearlyLow
		}
		return nil
	})
	return low, err
}

func lastHeight(v inventory.View, set inventory.Number, side inventory.Side, at time.Time) *geometry.Millimetre {
	found, err := inventory.FindSet(v, set)
	if err != nil {
		return nil
	}
	runner, err := inventory.FindRunner(v, found.Runner(side))
	if err != nil {
		return nil
	}
	return runner.WearAt(at).HeightLast
}

// IsOn tells whether a set is on a pair; what is no set is not.
func (d *Desk) IsOn(set inventory.Number) (on bool, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		if found, err := inventory.FindSet(v, set); err == nil {
			on = standing.SetState(v, found, at) == inventory.On
		}
		return nil
	})
	return on, err
}

// Retired lists the runners that an action was the end of, for their tags.
func (done Done) Retired() []inventory.Number {
	var numbers []inventory.Number
	for i := range done.Events {
		body, ok := done.Events[i].Body.(*inventory.TakenOut)
		if !ok {
			continue
		}
		for _, removal := range body.Each {
			if removal.Retired {
				numbers = append(numbers, removal.Runner)
			}
		}
	}
	return numbers
}
