package inventory

// TripNoted adds a trip, or changes its days.
type TripNoted struct {
	Trip string `json:"trip"` // its name
	From When   `json:"from"` // the day of leaving
	To   When   `json:"to"`   // the day of coming back
}

// Kind is the word in the record.
func (*TripNoted) Kind() string { return "trip" }

// Touches names the trip, and the list of trips.
func (b *TripNoted) Touches() []Ref { return []Ref{TripRef(b.Trip), TripsRef} }

// Travelling says of players whether they come along on a trip.
type Travelling struct {
	Trip    string   `json:"trip"`
	Players []Number `json:"players"`
	Stay    bool     `json:"stay,omitempty"` // they stay at home
}

// Kind is the word in the record.
func (*Travelling) Kind() string { return "roster" }

// Touches names the trip.
func (b *Travelling) Touches() []Ref { return []Ref{TripRef(b.Trip)} }

// Packed puts pieces and kits into a trunk for a trip, or takes them out again.
type Packed struct {
	Trip   string     `json:"trip"`
	Trunk  Number     `json:"trunk,omitempty"` // zero: nobody said which
	Place  *Place     `json:"place,omitempty"` // where the pieces lie by that: the trunk
	Pieces []Number   `json:"pieces,omitempty"`
	Kits   []KitCount `json:"kits,omitempty"`
	Out    bool       `json:"out,omitempty"`
}

// KitCount is how many of a kit's things there are.
type KitCount struct {
	Kit   string `json:"kit"`
	Count int    `json:"count"`
}

// Kind is the word in the record.
func (*Packed) Kind() string { return "packed" }

// Touches names the trip, the trunk and the pieces.
func (b *Packed) Touches() []Ref {
	return append(append(numbered(b.Trunk), numbered(b.Pieces...)...), TripRef(b.Trip))
}

// Loaded are trunks that were counted at a leg of a trip.
type Loaded struct {
	Trip   string   `json:"trip"`
	Leg    string   `json:"leg"` // out or back
	Trunks []Number `json:"trunks"`
}

// Kind is the word in the record.
func (*Loaded) Kind() string { return "loaded" }

// Touches names the trip and the trunks.
func (b *Loaded) Touches() []Ref { return append(numbered(b.Trunks...), TripRef(b.Trip)) }

// KitNoted says what travels that is not steel, and how many of it at least: rivets of
// a length, wheels of a hollow, guards.
type KitNoted struct {
	Kit   string `json:"kit"`
	Least int    `json:"least"` // 0: it travels no more
}

// Kind is the word in the record.
func (*KitNoted) Kind() string { return "kit" }

// Touches names the list of kits.
func (*KitNoted) Touches() []Ref { return []Ref{KitsRef} }
