package desk

import (
	"fmt"
	"slices"
	"time"

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
