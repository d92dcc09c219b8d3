package inventory

import (
	"slices"
	"time"
)

// Crisis is one emergency of a player and what became of it.
type Crisis struct {
	Emergency
	Done   *Dated[EmergencyDone] `json:"done,omitempty"`
	Closed *Key                  `json:"closed,omitempty"`
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
		p.Crises.add(e, Crisis{Emergency: *b})
	case *EmergencyDone:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Done = &Dated[EmergencyDone]{e.Happened, e.Key, *b}
		}
	case *EmergencyClosed:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Closed = &e.Key
		}
	case *CalledUp:
		p.Calls.add(e, *b)
	default:
		return false
	}
	return true
}

func (p *PlayerTravel) crisis(k Key) *Crisis {
	at := slices.IndexFunc(p.Crises, func(c Dated[Crisis]) bool { return c.Event == k })
	if at < 0 {
		return nil
	}
	return &p.Crises[at].Value
}

// Open tells whether something of the emergency still waits for a person: what was
// done, or that what was mended for the moment is mended for good.
func (c Crisis) Open() bool {
	return c.Closed == nil && (c.Done == nil || c.Done.Value.Temporary)
}

// OpenCrises lists the emergencies that wait for a person, the latest last.
func (p *PlayerTravel) OpenCrises(at time.Time) []Dated[Crisis] {
	return slices.DeleteFunc(slices.Clone(p.Crises.Until(at)), func(c Dated[Crisis]) bool { return !c.Value.Open() })
}

// CalledUpAt is what was last said of the player when he was called up.
func (p *PlayerTravel) CalledUpAt(at time.Time) (Dated[CalledUp], bool) {
	return latestEntry(p.Calls.Until(at))
}
