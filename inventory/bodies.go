package inventory

// NewBody is an empty body of a kind, or nil where this version does not know it.
func NewBody(kind string) Body {
	if fresh, known := bodies[kind]; known {
		return fresh()
	}
	return nil
}

// bodies makes an empty body of each kind.
var bodies = map[string]func() Body{
	"club":             func() Body { return &ClubNoted{} },
	"player":           func() Body { return &PlayerNoted{} },
	"specs":            func() Body { return &SpecsNoted{} },
	"model":            func() Body { return &ModelNoted{} },
	"stockin":          func() Body { return &StockedIn{} },
	"pair":             func() Body { return &PairNoted{} },
	"set":              func() Body { return &SetMade{} },
	"put":              func() Body { return &Placed{} },
	"rivet":            func() Body { return &Riveted{} },
	"in":               func() Body { return &PutIn{} },
	"out":              func() Body { return &TakenOut{} },
	"grind":            func() Body { return &Ground{} },
	"measure":          func() Body { return &Measured{} },
	"damage":           func() Body { return &Damaged{} },
	"inspect":          func() Body { return &Inspected{} },
	"refusal":          func() Body { return &Refused{} },
	"session":          func() Body { return &Session{} },
	"correction":       func() Body { return &Correction{} },
	"printed":          func() Body { return &Printed{} },
	"reserved":         func() Body { return &Reserved{} },
	"found":            func() Body { return &FoundOld{} },
	"from-tag":         func() Body { return &KnownFromTag{} },
	"container":        func() Body { return &ContainerNoted{} },
	"clock-doubted":    func() Body { return &ClockDoubted{} },
	"clock-right":      func() Body { return &ClockRight{} },
	"clock-set":        func() Body { return &ClockSet{} },
	"tried":            func() Body { return &Tried{} },
	"skated":           func() Body { return &Skated{} },
	"pitch":            func() Body { return &Pitched{} },
	"rules":            func() Body { return &RulesNoted{} },
	"custody":          func() Body { return &CustodyChanged{} },
	"answer":           func() Body { return &MakerAnswered{} },
	"scrap":            func() Body { return &Scrapped{} },
	"emergency":        func() Body { return &Emergency{} },
	"emergency-done":   func() Body { return &EmergencyDone{} },
	"emergency-closed": func() Body { return &EmergencyClosed{} },
	"trip":             func() Body { return &TripNoted{} },
	"roster":           func() Body { return &Travelling{} },
	"packed":           func() Body { return &Packed{} },
	"loaded":           func() Body { return &Loaded{} },
	"kit":              func() Body { return &KitNoted{} },
	"callup":           func() Body { return &CalledUp{} },
}
