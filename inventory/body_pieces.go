package inventory

import "steeltally/geometry"

// ModelNoted declares a model of runner or holder and what it fits.
type ModelNoted struct {
	Name       string               `json:"name"`
	Piece      string               `json:"piece"` // runner or holder
	Maker      string               `json:"maker,omitempty"`
	Family     string               `json:"family,omitempty"`     // holder family
	Attachment string               `json:"attachment,omitempty"` // how the runner is held
	Goalkeeper bool                 `json:"goalkeeper,omitempty"`
	Thickness  geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height     *geometry.Millimetre `json:"height_mm,omitempty"` // new
}

// Kind is the word in the record.
func (*ModelNoted) Kind() string { return "model" }

// Touches names the model.
func (b *ModelNoted) Touches() []Ref { return []Ref{ModelRef(b.Name)} }

// StockedIn brings runners or holders into the club's stock.
type StockedIn struct {
	Pieces    []Number             `json:"pieces"`
	Model     string               `json:"model"`
	Size      int                  `json:"size_mm"` // length as the maker marks it
	Side      Side                 `json:"side,omitempty"`
	Thickness geometry.Millimetre  `json:"thickness_mm,omitempty"`
	Height    *geometry.Millimetre `json:"height_mm,omitempty"`
	Lot       string               `json:"lot,omitempty"`
	Order     string               `json:"order,omitempty"`
	Place     *Place               `json:"place,omitempty"`
}

// Kind is the word in the record.
func (*StockedIn) Kind() string { return "stockin" }

// Touches names the pieces, their model and the shelf that they lie on.
func (b *StockedIn) Touches() []Ref {
	refs := append(numbered(b.Pieces...), ModelRef(b.Model))
	refs = append(refs, shelvesOf(b.Pieces...)...)
	for _, n := range b.Pieces {
		refs = append(refs, CounterOf(n))
	}
	return refs
}

// PairNoted gives a player a pair of boots, or a pair another role.
type PairNoted struct {
	Pair   Number `json:"pair"`
	Player Number `json:"player"`
	Role   Role   `json:"role"`
}

// Kind is the word in the record.
func (*PairNoted) Kind() string { return "pair" }

// Touches names the pair and its player.
func (b *PairNoted) Touches() []Ref {
	return append(numbered(b.Pair, b.Player), CounterOf(b.Pair))
}

// SetMade matches two runners for a player.
type SetMade struct {
	Set    Number   `json:"set"`
	Player Number   `json:"player"`
	Letter string   `json:"letter"`
	Left   Number   `json:"left"`
	Right  Number   `json:"right"`
	Breaks []Number `json:"breaks,omitempty"` // earlier sets that give up a runner
}

// Kind is the word in the record.
func (*SetMade) Kind() string { return "set" }

// Touches names the set, its player, its runners, the sets that it breaks and the shelf
// that the runners lay on.
func (b *SetMade) Touches() []Ref {
	refs := numbered(append([]Number{b.Set, b.Player, b.Left, b.Right}, b.Breaks...)...)
	return append(refs, CounterOf(b.Set), ShelfRef(KindRunner))
}

// Place is where a piece lies, in the club's own words.
type Place struct {
	Name string `json:"name"`
	Slot string `json:"slot,omitempty"`
}

// String is the place in one phrase: "trunk 3, slot 7".
func (p Place) String() string {
	if p.Slot == "" {
		return p.Name
	}
	return p.Name + ", slot " + p.Slot
}

// Placed puts pieces at a place.
type Placed struct {
	Pieces []Number `json:"pieces"`
	Place  Place    `json:"place"`
}

// Kind is the word in the record.
func (*Placed) Kind() string { return "put" }

// Touches names the pieces.
func (b *Placed) Touches() []Ref { return numbered(b.Pieces...) }
