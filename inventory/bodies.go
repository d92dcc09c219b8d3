package inventory

// NewBody is an empty body of a kind, or nil where this version does not know it.
func NewBody(kind string) Body {
	switch kind {
	case "club":
		return &ClubNoted{}
	case "player":
		return &PlayerNoted{}
	case "specs":
		return &SpecsNoted{}
	case "model":
		return &ModelNoted{}
	case "stockin":
		return &StockedIn{}
	case "pair":
		return &PairNoted{}
	case "set":
		return &SetMade{}
	case "put":
		return &Placed{}
	}
	return newBodyOfUse(kind)
}

// newBodyOfUse knows the kinds that happen to steel in use.
func newBodyOfUse(kind string) Body {
	switch kind {
	case "rivet":
		return &Riveted{}
	case "in":
		return &PutIn{}
	case "out":
		return &TakenOut{}
	case "grind":
		return &Ground{}
	case "measure":
		return &Measured{}
	case "damage":
		return &Damaged{}
	case "inspect":
		return &Inspected{}
	case "refusal":
		return &Refused{}
	case "session":
		return &Session{}
	case "correction":
		return &Correction{}
	}
	return newBodyOfTags(kind)
}

// newBodyOfTags knows the kinds that have to do with tags, where pieces lie, and clocks.
func newBodyOfTags(kind string) Body {
	switch kind {
	case "printed":
		return &Printed{}
	case "reserved":
		return &Reserved{}
	case "found":
		return &FoundOld{}
	case "from-tag":
		return &KnownFromTag{}
	case "container":
		return &ContainerNoted{}
	case "clock-doubted":
		return &ClockDoubted{}
	case "clock-right":
		return &ClockRight{}
	case "clock-set":
		return &ClockSet{}
	}
	return newBodyOfTravel(kind)
}
