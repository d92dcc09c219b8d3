package inventory

// Boot is one boot of a pair: the holder on it and the runner in that, through time.
type Boot struct {
	Holders Timeline[Number] `json:"holders,omitempty"` // zero: none on it
	Runners Timeline[Seat]   `json:"runners,omitempty"`
}

// Seat is what is in a holder from a time on.
type Seat struct {
	Runner Number `json:"runner,omitempty"` // zero: empty
	Holder Number `json:"holder,omitempty"`
	Set    Number `json:"set,omitempty"`
	Taken  Number `json:"taken,omitempty"` // the runner that came out, where one did
}

// rivet hangs a holder on or takes it off; a runner in it comes along.
func (b *Boot) rivet(e *Event, r *Riveted) {
	b.Holders.add(e, holderOn(r))
	switch {
	case r.Runner == 0:
	case r.Off:
		b.Runners.addWhere(e, Seat{Taken: r.Runner}, seatFollows)
	default:
		b.Runners.addWhere(e, Seat{Runner: r.Runner, Holder: r.Holder, Set: r.Set}, seatFollows)
	}
}

// holderOn is the holder that hangs on the boot after riveting.
func holderOn(r *Riveted) Number {
	if r.Off {
		return 0
	}
	return r.Holder
}

// clashes lists what was noted of the boot and cannot all be right.
func (b *Boot) clashes(side Side) []clash {
	clashes := b.Runners.clashes(func(before, after Seat) string { return seatClash(string(side), before, after) })
	clashes = append(clashes, b.Holders.clashes(func(before, after Number) string {
		if (before == 0) == (after == 0) {
			return "the " + string(side) + " holder was changed twice, and the two entries do not agree"
		}
		return ""
	})...)
	return append(clashes, b.unheld(side)...)
}

// seatFollows tells whether a seat can come after another: in only where it was empty,
// out only what was in.
func seatFollows(before, after Seat) bool {
	if after.Runner != 0 {
		return before.Runner == 0
	}
	return before.Runner == after.Taken
}

// seatClash tells why a seat can't come after another.
func seatClash(where string, before, after Seat) string {
	switch {
	case seatFollows(before, after):
		return ""
	case before == (Seat{}):
		return "the " + where + " steel was taken off, but nothing says that it was on"
	}
	return "the " + where + " steel was changed twice, and the two entries do not agree"
}

// unheld lists steel that went into another holder than was on the boot, and holders
// that came on or off with nothing said of the steel that was there.
func (b *Boot) unheld(side Side) []clash {
	var clashes []clash
	for _, seat := range b.Runners {
		if seat.Value.Runner != 0 && !hadAt(b.Holders, seat.Value.Holder, seat.When.Start) {
			clashes = append(clashes, clash{After: seat.Event, What: "the " + string(side) + " steel went into another holder than was on"})
		}
	}
	for _, change := range b.Holders {
		at := b.Runners.at(change.When.Start)
		if at < 0 || b.Runners[at].Value.Runner == 0 || b.Runners[at].When.Start.Equal(change.When.Start) {
			continue
		}
		clashes = append(clashes, clash{b.Runners[at].Event, change.Event, "the " + string(side) + " holder was changed, but nothing says what became of the steel"})
	}
	return clashes
}
