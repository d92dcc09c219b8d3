package inventory

import (
	"slices"
	"time"
)

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

// PlayerTravel is what a player carries beside his steel.
type PlayerTravel struct {
	Crises Timeline[Crisis]   `json:"emergencies,omitempty"`
	Calls  Timeline[CalledUp] `json:"callups,omitempty"`
}

// apply folds one event; it tells whether it was of that sort.
func (p *PlayerTravel) apply(e *Event) bool {
	switch b := e.Body.(type) {
	case *Emergency:
		p.call(e, b)
	case *EmergencyDone:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Done = &Dated[EmergencyDone]{e.Happened, e.Key, *b}
		}
	case *EmergencyClosed:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Closed = &Dated[string]{e.Happened, e.Key, b.Note}
		}
	case *CalledUp:
		p.Calls.add(e, *b)
	default:
		return false
	}
	return true
}

// call begins an emergency, or says more of the one that runs.
func (p *PlayerTravel) call(e *Event, b *Emergency) {
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
func (p *PlayerTravel) Running(pair Number, side Side, at time.Time) (Dated[Crisis], bool) {
	for _, crisis := range p.Crises {
		apart := at.Sub(crisis.When.Start).Abs()
		if crisis.Value.Pair == pair && crisis.Value.Side == side && crisis.Value.Done == nil && crisis.Value.Closed == nil && apart < OneEmergency {
			return crisis, true
		}
	}
	return Dated[Crisis]{}, false
}

func (p *PlayerTravel) crisis(k Key) *Crisis {
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
func (p *PlayerTravel) OpenCrises(at time.Time) []Dated[Crisis] {
	return slices.DeleteFunc(slices.Clone(p.Crises.Until(at)), func(c Dated[Crisis]) bool { return !c.Value.OpenAt(at) })
}

// CalledUpAt is what was last said of the player when he was called up.
func (p *PlayerTravel) CalledUpAt(at time.Time) (Dated[CalledUp], bool) {
	return latestEntry(p.Calls.Until(at))
}
