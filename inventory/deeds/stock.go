package deeds

import (
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// DeclareModel says what a model is and what it fits.
type DeclareModel inventory.ModelNoted

// Decide records the declaration; a later one takes the place of an earlier one.
func (d DeclareModel) Decide(_ inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the model's name", d.Name); err != nil {
		return out, err
	}
	if err := oneOf("piece", d.Piece, []string{"runner", "holder"}); err != nil {
		return out, inventory.RefuseValue(err.Error(), "")
	}
	if err := checkThickness(d.Thickness); err != nil {
		return out, err
	}
	if d.Height != nil {
		if err := inventory.CheckHeight("height", *d.Height); err != nil {
			return out, err
		}
	}
	body := inventory.ModelNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}

// checkThickness takes 0 as not given. Skaters' runners are about 3 mm, goalkeepers'
// up to 4 mm; common practice, no source.
func checkThickness(thickness geometry.Millimetre) error {
	if thickness != 0 && !(thickness >= 2 && thickness <= 6) {
		return inventory.RefuseValue(fmt.Sprintf("a thickness of %s can't be right", thickness), "runners are about 3 mm thick, goalkeepers' up to 4 mm")
	}
	return nil
}

// StockIn brings a number of like pieces into stock.
type StockIn struct {
	Piece     inventory.Kind
	Model     string
	Size      int
	Side      inventory.Side
	Thickness geometry.Millimetre
	Height    *geometry.Millimetre
	Count     int
	Numbers   []inventory.Number // of blank tags that are on the pieces already; else new ones are given
	Lot       string
	Order     string
	Place     *inventory.Place
}

const (
	leastSize   = 150
	mostSize    = 400
	mostStockIn = 500
)

// Decide gives each piece a number. A model that nobody declared is allowed and said.
func (d StockIn) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Numbers) > 0 {
		d.Count = len(d.Numbers)
	}
	if err := d.check(); err != nil {
		return out, err
	}
	if err := d.checkModel(v, &out); err != nil {
		return out, err
	}
	numbers, err := d.numbers(v, &out)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.StockedIn{
		Pieces: numbers, Model: d.Model, Size: d.Size, Side: d.Side, Thickness: d.Thickness,
		Height: d.Height, Lot: d.Lot, Order: d.Order, Place: d.Place,
	})
	return out, nil
}

// numbers are those of the blank tags, or new ones.
func (d StockIn) numbers(v inventory.View, out *Outcome) ([]inventory.Number, error) {
	for i, n := range d.Numbers {
		switch {
		case n.Kind() != d.Piece:
			return nil, inventory.RefuseValue(fmt.Sprintf("%s is a %s's number, not a %s's", n.Short(), n.Kind(), d.Piece), "enter "+n.Kind().String()+"s with steeltally stockin "+n.Kind().String())
		case slices.Contains(d.Numbers[:i], n):
			return nil, inventory.RefuseValue(n.Short()+" was given twice", "scan each tag once")
		case inventory.IsEntered(v.Entity(inventory.RefOf(n))):
			return nil, inventory.Refuse(n.Short()+" is in this book already", "steeltally history "+n.Short()+" shows it")
		case !inventory.IsBlank(v, n):
			return nil, inventory.Refuse(n.Short()+" is on no blank tag of this book", "leave --number out and the piece gets a number; blank tags come from steeltally tag --blank")
		}
	}
	if len(d.Numbers) > 0 {
		return d.Numbers, nil
	}
	return nextNumbers(v, d.Piece, d.Count, out)
}

func (d StockIn) check() error {
	if err := checkName("the model's name", d.Model); err != nil {
		return err
	}
	if d.Piece != inventory.KindRunner && d.Piece != inventory.KindHolder {
		return inventory.RefuseValue(fmt.Sprintf("a %s is not stocked", d.Piece), "runners and holders come into stock")
	}
	if err := checkSide(d.Side); err != nil {
		return err
	}
	if d.Size < leastSize || d.Size > mostSize {
		return inventory.RefuseValue(fmt.Sprintf("size %d: %d to %d are possible", d.Size, leastSize, mostSize), "the size is the length in mm that the maker marks on the piece")
	}
	if d.Count < 1 {
		return inventory.RefuseValue(fmt.Sprintf("count %d: 1 to %d can be entered at once", d.Count, mostStockIn), "say how many pieces came")
	}
	if d.Count > mostStockIn {
		return inventory.RefuseValue(fmt.Sprintf("count %d: 1 to %d can be entered at once", d.Count, mostStockIn), "enter more in several goes")
	}
	if d.Piece == inventory.KindHolder && d.Side == "" {
		return inventory.RefuseValue("a holder is a left or a right one from the start", "add --side left or --side right")
	}
	if d.Height != nil {
		if err := inventory.CheckHeight("height", *d.Height); err != nil {
			return err
		}
	}
	return checkThickness(d.Thickness)
}

func checkSide(side inventory.Side) error {
	if side == "" || side == inventory.Left || side == inventory.Right {
		return nil
	}
	_, err := inventory.ParseSide(string(side))
	return inventory.RefuseValue(err.Error(), "")
}

func (d *StockIn) checkModel(v inventory.View, out *Outcome) error {
	model, known := v.Entity(inventory.ModelRef(d.Model)).(*inventory.Model)
	if !known || !model.Declared {
		out.tell("model "+d.Model+" is not declared, so what fits it can't be checked", "steeltally model add "+inventory.Quoted(d.Model)+" says what it fits")
		return nil
	}
	if model.Piece != d.Piece.String() {
		return inventory.Refuse(fmt.Sprintf("model %s is a %s's, not a %s's", model.Name, model.Piece, d.Piece), "check the model's name")
	}
	if d.Thickness == 0 {
		d.Thickness = model.Thickness
	}
	switch {
	case d.Height == nil && d.Piece == inventory.KindRunner:
		d.Height = model.Height
	case d.Height != nil && model.Height != nil:
		sayFarFromModel(*d.Height, *model.Height, model.Name, out)
	}
	return nil
}

// AddPair gives a player a pair of boots.
type AddPair struct {
	Player inventory.Number
	Role   inventory.Role
}

// Decide gives the pair a number; a player has one pair in a role.
func (d AddPair) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	if err := checkRole(v, player, d.Role, m); err != nil {
		return out, err
	}
	numbers, err := nextNumbers(v, inventory.KindPair, 1, &out)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.PairNoted{Pair: numbers[0], Player: d.Player, Role: d.Role})
	return out, nil
}

func checkRole(v inventory.View, player *inventory.Player, role inventory.Role, m Moment) error {
	if err := oneOf("role", role, inventory.Roles()); err != nil {
		return inventory.RefuseValue(err.Error(), "")
	}
	if pair, err := inventory.PairInRole(v, player, role, m.at()); err == nil && role != inventory.RoleKept {
		return inventory.Refuse(fmt.Sprintf("%s's %s pair is %s", player.Name, role, pair.Number.Short()),
			"give that one another role first: steeltally pair role "+pair.Number.Short()+" third")
	}
	return nil
}

// GiveRole makes a pair its player's first, spare or third.
type GiveRole struct {
	Pair inventory.Number
	Role inventory.Role
}

// Decide records the role from a moment on.
func (d GiveRole) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	pair, err := inventory.FindPair(v, d.Pair)
	if err != nil {
		return out, err
	}
	player, err := inventory.PlayerOf(v, pair.Player)
	if err != nil {
		return out, err
	}
	if err := checkRole(v, player, d.Role, m); err != nil {
		return out, err
	}
	out.record(m.Happened, &inventory.PairNoted{Pair: d.Pair, Player: pair.Player, Role: d.Role})
	return out, nil
}

// Scrap throws pieces away.
type Scrap struct {
	Pieces []inventory.Number
	Reason string
}

// Decide records the end of pieces that are on nothing any more. Their history stays.
func (d Scrap) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Pieces) == 0 {
		return out, inventory.RefuseValue("no piece was named", "scan what is thrown away")
	}
	body := &inventory.Scrapped{Reason: d.Reason}
	for _, n := range d.Pieces {
		if err := checkFree(v, n, m.at()); err != nil {
			return out, err
		}
		body.Pieces = append(body.Pieces, n)
		if set, ok := v.Entity(inventory.RefOf(n)).(*inventory.Set); ok {
			body.Pieces = append(body.Pieces, set.Left, set.Right)
		}
	}
	slices.Sort(body.Pieces)
	body.Pieces = slices.Compact(body.Pieces)
	out.record(m.Happened, body)
	return out, nil
}

// checkFree refuses a piece that is still on something, or gone already.
func checkFree(v inventory.View, n inventory.Number, at time.Time) error {
	state := v.Entity(inventory.RefOf(n))
	if !inventory.IsEntered(state) {
		return inventory.Refuse(n.Short()+" is not a piece in this book", "scan a runner, a holder, a pair or a set")
	}
	if inventory.MarksOf(v, n).ScrappedAt(at) {
		return inventory.Refuse(n.Short()+" was scrapped already", "steeltally history "+n.Short()+" shows when")
	}
	switch state := state.(type) {
	case *inventory.Runner:
		if standing.Held(v, state, at) {
			return inventory.Refuse(n.Short()+" is in a holder", "take it out first: steeltally out "+n.Short())
		}
	case *inventory.Holder:
		if boot := state.BootAt(at); boot.Pair != 0 {
			return inventory.Refuse(n.Short()+" is on pair "+boot.Pair.Short(), "take it off first: steeltally rivet off "+n.Short())
		}
	case *inventory.Pair:
		if on := inventory.PiecesOn(state, at); len(on) > 0 {
			return inventory.Refuse(on[0].Short()+" is still on pair "+n.Short(), "take holders and steel off first")
		}
	case *inventory.Set:
		if standing.SetState(v, state, at) == inventory.On {
			return inventory.Refuse("set "+state.Letter+" is on", "take it off first: steeltally out")
		}
	default:
		return inventory.Refuse(fmt.Sprintf("a %s is not scrapped, a piece is", n.Kind()), "scan a runner, a holder, a pair or a set")
	}
	return nil
}
