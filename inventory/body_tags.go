package inventory

// Printed says that tags came out, of a printer or as a file to print.
type Printed struct {
	Template string       `json:"template"`
	Printer  string       `json:"printer,omitempty"` // empty: a file
	Job      string       `json:"job,omitempty"`     // the print queue's number for it
	Tags     []TagOfPiece `json:"tags"`
}

// TagOfPiece is one printed tag; a piece that is put back in use gets tags of a new
// generation.
type TagOfPiece struct {
	Piece      Number `json:"piece"`
	Generation int    `json:"generation,omitempty"`
}

// Kind is the word in the record.
func (*Printed) Kind() string { return "printed" }

// Touches names the pieces.
func (b *Printed) Touches() []Ref {
	refs := make([]Ref, 0, len(b.Tags))
	for _, tag := range b.Tags {
		refs = append(refs, numbered(tag.Piece)...)
	}
	return refs
}

// Reserved keeps running numbers for blank tags, which are stuck on first and scanned
// later. No piece has such a number until it is entered.
type Reserved struct {
	Piece   string `json:"piece"` // runner or holder
	Station int    `json:"station"`
	First   int    `json:"first"`
	Count   int    `json:"count"`
}

// Kind is the word in the record.
func (*Reserved) Kind() string { return "reserved" }

// Touches names the counter that the numbers come from, and nothing else.
func (b *Reserved) Touches() []Ref { return []Ref{GivenRef(KindNamed(b.Piece), b.Station)} }

// Numbers are the reserved numbers.
func (b *Reserved) Numbers() []Number {
	var numbers []Number
	for running := b.First; running < b.First+b.Count; running++ {
		if n, err := NewNumber(KindNamed(b.Piece), b.Station, running); err == nil {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// KindNamed is the kind of a word such as "runner", or 0.
func KindNamed(word string) Kind {
	for kind, name := range kindNames {
		if name.word == word && word != "" {
			return Kind(kind)
		}
	}
	return 0
}
