package inventory

// An entity can have a state although nothing that stands brought it into the record:
// its stock-in was taken back, or only a newer program's entry names it. Entered tells
// the two apart; what is not entered can't be used.

// Entered tells whether a stock-in that stands brought the piece into the record.
func (s *Stock) Entered() bool { return s.Event != Key{} }

// Entered tells whether the pair was given to a player.
func (p *Pair) Entered() bool { return p.Event != Key{} }

// Entered tells whether the set was made.
func (s *Set) Entered() bool { return s.Event != Key{} }

// Entered tells whether the player was added.
func (p *Player) Entered() bool { return len(p.Sweaters) > 0 }

// IsEntered tells whether a state is that of a thing in the record.
func IsEntered(state Entity) bool {
	thing, ok := state.(interface{ Entered() bool })
	return ok && thing.Entered()
}
