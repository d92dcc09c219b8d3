package inventory

// ClockDoubted says that the entries before it of the same action were noted at a time
// that lies far from what was noted before, and that nobody was asked about it.
type ClockDoubted struct {
	Entries int  `json:"entries"` // so many before it
	Last    When `json:"last"`    // when the entry before these was noted
}

// Kind is the word in the record.
func (*ClockDoubted) Kind() string { return "clock-doubted" }

// Touches names the clocks.
func (*ClockDoubted) Touches() []Ref { return []Ref{ClocksRef} }

// ClockRight says that a clock that was in doubt stood right.
type ClockRight struct {
	Doubts []Key `json:"doubts"`
}

// Kind is the word in the record.
func (*ClockRight) Kind() string { return "clock-right" }

// Touches names the clocks.
func (*ClockRight) Touches() []Ref { return []Ref{ClocksRef} }

// ClockSet says that a writer's clock stood wrong when it noted some entries, and by how
// much: what has its time from that clock happened so much later, or earlier. Times that
// a person typed are none of these.
type ClockSet struct {
	Of      Writer `json:"of"`
	Entries []Run  `json:"entries"` // in order
	By      int64  `json:"by"`      // seconds, to be added
	Doubts  []Key  `json:"doubts,omitempty"`
}

// Run is some entries of a writer that follow each other.
type Run struct {
	First uint64 `json:"first"` // its sequence
	Count uint64 `json:"count"`
}

// Kind is the word in the record.
func (*ClockSet) Kind() string { return "clock-set" }

// Touches names the clocks. What else is another by it is folded anew from its own entries.
func (*ClockSet) Touches() []Ref { return []Ref{ClocksRef, ClockSetsRef} }
