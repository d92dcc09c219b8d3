package inventory

// CustodyChanged says who has pieces from a time on. Custody is not place: a pair at
// its player's home is the club's, but not at hand.
type CustodyChanged struct {
	Pieces    []Number `json:"pieces"`
	Custody   string   `json:"custody"`             // one of Custodies
	With      string   `json:"with,omitempty"`      // whom, by name
	Reference string   `json:"reference,omitempty"` // of the letter that went along
	Due       When     `json:"due"`                 // back by then
	Note      string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*CustodyChanged) Kind() string { return "custody" }

// Touches names the pieces, and the list of those that were away.
func (b *CustodyChanged) Touches() []Ref { return append(numbered(b.Pieces...), AwayRef) }

// MakerAnswered is what a maker or repairer said about pieces that were sent.
type MakerAnswered struct {
	Pieces   []Number `json:"pieces"`
	Decision string   `json:"decision"` // one of Decisions
	Due      When     `json:"due"`      // what was promised, by then
	Note     string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*MakerAnswered) Kind() string { return "answer" }

// Touches names the pieces, and the list of those that were away.
func (b *MakerAnswered) Touches() []Ref { return append(numbered(b.Pieces...), AwayRef) }

// Scrapped is the end of pieces: thrown away, as steel for melting or as rubbish.
type Scrapped struct {
	Pieces []Number `json:"pieces"`
	Reason string   `json:"reason,omitempty"`
}

// Kind is the word in the record.
func (*Scrapped) Kind() string { return "scrap" }

// Touches names the pieces, and the shelves that they may have lain on.
func (b *Scrapped) Touches() []Ref { return append(numbered(b.Pieces...), shelvesOf(b.Pieces...)...) }
