package inventory

// Riveted puts a holder on a boot or takes it off, with the runner that is in it.
type Riveted struct {
	Holder Number `json:"holder"`
	Pair   Number `json:"pair"`
	Side   Side   `json:"side"`
	Off    bool   `json:"off,omitempty"`
	Runner Number `json:"runner,omitempty"`
	Set    Number `json:"set,omitempty"`
	Player Number `json:"player,omitempty"`
}

// Kind is the word in the record.
func (b *Riveted) Kind() string { return "rivet" }

// Touches names everything that hangs together.
func (b *Riveted) Touches() []Ref {
	return append(numbered(b.Holder, b.Pair, b.Runner, b.Set, b.Player), ShelfRef(KindHolder))
}

// Fit is one runner in one holder.
type Fit struct {
	Runner Number `json:"runner"`
	Holder Number `json:"holder,omitempty"`
}

// PutIn puts steel into a pair's holders: both runners of a set, or one.
type PutIn struct {
	Player Number `json:"player"`
	Pair   Number `json:"pair"`
	Set    Number `json:"set,omitempty"`
	Order  int    `json:"order,omitempty"` // the how-manieth set of its player
	Both[Fit]
}

// Kind is the word in the record.
func (*PutIn) Kind() string { return "in" }

// Touches names everything that hangs together.
func (b *PutIn) Touches() []Ref {
	refs := numbered(b.Player, b.Pair, b.Set)
	for _, fit := range b.Each {
		refs = append(refs, numbered(fit.Runner, fit.Holder)...)
	}
	return refs
}

// Removal is one runner out of one holder.
type Removal struct {
	Runner  Number `json:"runner"`
	Holder  Number `json:"holder,omitempty"`
	Retired bool   `json:"retired,omitempty"` // done with: goes to the bin, tagged
}

// TakenOut takes steel out of a pair's holders.
type TakenOut struct {
	Player   Number `json:"player"`
	Pair     Number `json:"pair"`
	Set      Number `json:"set,omitempty"`
	Reason   string `json:"reason"`
	LastGame string `json:"last_game,omitempty"`
	Place    *Place `json:"place,omitempty"`
	Both[Removal]
}

// Kind is the word in the record.
func (*TakenOut) Kind() string { return "out" }

// Touches names everything that hangs together.
func (b *TakenOut) Touches() []Ref {
	refs := numbered(b.Player, b.Pair, b.Set)
	for _, removal := range b.Each {
		refs = append(refs, numbered(removal.Runner, removal.Holder)...)
	}
	return refs
}
