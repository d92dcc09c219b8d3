package inventory

import "time"

// Scrapped is the end of pieces: thrown away, as steel for melting or as rubbish.
type Scrapped struct {
	Pieces []Number `json:"pieces"`
	Reason string   `json:"reason,omitempty"`
}

// Kind is the word in the record.
func (*Scrapped) Kind() string { return "scrap" }

// Touches names the pieces, and the shelves that they may have lain on.
func (b *Scrapped) Touches() []Ref { return append(numbered(b.Pieces...), shelvesOf(b.Pieces...)...) }

func (b *Scrapped) line(Teller, *Event) string {
	return withNote("scrapped: "+sayPieces(b.Pieces), b.Reason)
}

// ScrappedAt tells whether the piece was thrown away by an instant.
func (m *Marks) ScrappedAt(at time.Time) bool { return len(m.Scraps.Until(at)) > 0 }
