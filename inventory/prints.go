package inventory

import "slices"

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
