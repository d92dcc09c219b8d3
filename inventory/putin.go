package inventory

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

func (b *PutIn) line(t Teller, _ *Event) string {
	return movedOf(t.set(b.Set), &b.Both) + " on " + t.pair(b.Pair)
}

// movedOf is what of a set went on or came off: all of it, or one side.
func movedOf[T any](set string, moved *Both[T]) string {
	switch {
	case moved.Left != nil && moved.Right == nil:
		return "left runner of " + set
	case moved.Right != nil && moved.Left == nil:
		return "right runner of " + set
	}
	return set
}
