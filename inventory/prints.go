package inventory

import (
	"fmt"
	"slices"
)

// Printed says that tags came out, of a printer or as a file to print.
type Printed struct {
	Template string       `json:"template"`
	Printer  string       `json:"printer,omitempty"` // empty: a file
	Job      string       `json:"job,omitempty"`     // the print queue's number for it
	Tags     []TagOfPiece `json:"tags"`
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

func (b *Printed) line(Teller, *Event) string {
	line := fmt.Sprintf("tag %s printed", b.Template)
	if len(b.Tags) > 1 {
		line = fmt.Sprintf("%d tags %s printed", len(b.Tags), b.Template)
	}
	if b.Printer != "" {
		line += " on " + b.Printer
	}
	if b.Job != "" {
		line += ", job " + b.Job
	}
	return line
}

// TagOfPiece is one printed tag; a piece that is put back in use gets tags of a new
// generation.
type TagOfPiece struct {
	Piece      Number `json:"piece"`
	Generation int    `json:"generation,omitempty"`
}

// Print is how often a tag of one template and generation came out.
type Print struct {
	Template   string `json:"template"`
	Generation int    `json:"generation,omitempty"`
	Times      int    `json:"times"`
	Last       When   `json:"last"`
}

// print counts a tag that came out.
func (m *Marks) print(self Number, e *Event, b *Printed) {
	for _, tag := range b.Tags {
		if tag.Piece != self {
			continue
		}
		at := slices.IndexFunc(m.Prints, func(p Print) bool { return p.Template == b.Template && p.Generation == tag.Generation })
		if at < 0 {
			at, m.Prints = len(m.Prints), append(m.Prints, Print{Template: b.Template, Generation: tag.Generation})
		}
		m.Prints[at].Times++
		if e.Happened.Compare(m.Prints[at].Last) > 0 {
			m.Prints[at].Last = e.Happened
		}
	}
}

// PrintsOf is how often a tag of a template and a generation came out, by this record.
func (m *Marks) PrintsOf(template string, generation int) Print {
	for _, p := range m.Prints {
		if p.Template == template && p.Generation == generation {
			return p
		}
	}
	return Print{Template: template, Generation: generation}
}
