package inventory

import (
	"fmt"
	"slices"
	"time"
)

// Emergency is a player who came off with something broken. Nobody skates on the
// suspects until somebody looked at them.
type Emergency struct {
	Player   Number   `json:"player"`
	Pair     Number   `json:"pair"`
	Side     Side     `json:"side"`
	Suspects []Number `json:"suspects,omitempty"` // the holder, the runner or both; none where a damage says it
}

// Kind is the word in the record.
func (*Emergency) Kind() string { return "emergency" }

// Touches names the player, the pair and the suspects.
func (b *Emergency) Touches() []Ref {
	return append(numbered(b.Player, b.Pair), numbered(b.Suspects...)...)
}

func (b *Emergency) line(t Teller, _ *Event) string {
	line := fmt.Sprintf("emergency, %s, %s side", t.pair(b.Pair), OrDash(string(b.Side)))
	if len(b.Suspects) > 0 {
		line += ": " + sayPieces(b.Suspects) + " not to be skated on until somebody looked"
	}
	return line
}

// EmergencyDone is how the player got back on the ice.
type EmergencyDone struct {
	Emergency    Key      `json:"emergency"` // what it was the end of
	Player       Number   `json:"player"`
	Did          Remedy   `json:"did"` // one of Remedies
	With         []Number `json:"with,omitempty"`
	Minutes      *float64 `json:"minutes,omitempty"` // until the player was back
	ShiftsMissed *int     `json:"shifts_missed,omitempty"`
	Temporary    bool     `json:"temporary,omitempty"` // the thing itself is still to be mended
	Note         string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*EmergencyDone) Kind() string { return "emergency-done" }

// Touches names the player.
func (b *EmergencyDone) Touches() []Ref { return numbered(b.Player) }

func (b *EmergencyDone) line(Teller, *Event) string {
	line := "back on the ice: " + string(b.Did)
	if b.Did == RemedyNothing {
		line = "back on the ice as he was"
	}
	if b.Did == RemedyOut {
		line = "did not come back"
	}
	if len(b.With) > 0 {
		line += " " + sayPieces(b.With)
	}
	if b.Minutes != nil {
		line += ", " + sayMinutes(*b.Minutes)
	}
	if b.ShiftsMissed != nil {
		line += fmt.Sprintf(", shifts missed: %d", *b.ShiftsMissed)
	}
	if b.Temporary {
		line += ", for the moment"
	}
	return withNote(line, b.Note)
}

// EmergencyClosed says that what was mended for the moment is mended for good.
type EmergencyClosed struct {
	Emergency Key    `json:"emergency"`
	Player    Number `json:"player"`
	Note      string `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*EmergencyClosed) Kind() string { return "emergency-closed" }

// Touches names the player.
func (b *EmergencyClosed) Touches() []Ref { return numbered(b.Player) }

func (b *EmergencyClosed) line(Teller, *Event) string {
	return withNote("emergency mended for good", b.Note)
}

// OneEmergency is how long after its start an emergency that nobody ended is still the
// same one, whatever more is said of that side: about a game.
const OneEmergency = 3 * time.Hour

// Crisis is one emergency of a player and what became of it.
type Crisis struct {
	Emergency
	Also   []Key                 `json:"also,omitempty"` // events that said more of it
	Done   *Dated[EmergencyDone] `json:"done,omitempty"`
	Closed *Dated[string]        `json:"closed,omitempty"` // with what was noted
}

// call begins an emergency, or says more of the one that runs.
func (p *Player) call(e *Event, b *Emergency) {
	running, _ := p.Running(b.Pair, b.Side, e.Happened.Start)
	crisis := p.crisis(running.Event)
	if crisis == nil {
		p.Crises.add(e, Crisis{Emergency: *b})
		return
	}
	crisis.Also = append(crisis.Also, e.Key)
	crisis.Suspects = Distinct(slices.Concat(crisis.Suspects, b.Suspects))
}

// Running is the emergency of a side that nobody ended yet at an instant of the same game.
func (p *Player) Running(pair Number, side Side, at time.Time) (Dated[Crisis], bool) {
	for _, crisis := range p.Crises {
		apart := at.Sub(crisis.When.Start).Abs()
		if crisis.Value.Pair == pair && crisis.Value.Side == side && crisis.Value.Done == nil && crisis.Value.Closed == nil && apart < OneEmergency {
			return crisis, true
		}
	}
	return Dated[Crisis]{}, false
}

func (p *Player) crisis(k Key) *Crisis {
	at := slices.IndexFunc(p.Crises, func(c Dated[Crisis]) bool { return c.Event == k || slices.Contains(c.Value.Also, k) })
	if at < 0 {
		return nil
	}
	return &p.Crises[at].Value
}

// OpenAt tells whether something of the emergency waits for a person at an instant: what
// was done, or that what was mended for the moment is mended for good.
func (c Crisis) OpenAt(at time.Time) bool {
	if c.Closed != nil && !c.Closed.When.After(at) {
		return false
	}
	done := c.DoneAt(at)
	return done == nil || done.Value.Temporary
}

// DoneAt is how the player got back on the ice, once he was; else nil.
func (c Crisis) DoneAt(at time.Time) *Dated[EmergencyDone] {
	if c.Done == nil || c.Done.When.After(at) {
		return nil
	}
	return c.Done
}

// OpenCrises lists the emergencies that wait for a person at an instant, the latest last.
func (p *Player) OpenCrises(at time.Time) []Dated[Crisis] {
	return slices.DeleteFunc(slices.Clone(p.Crises.Until(at)), func(c Dated[Crisis]) bool { return !c.Value.OpenAt(at) })
}
