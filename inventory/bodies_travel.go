package inventory

// newBodyOfTravel knows the kinds that have to do with spare pairs, trips and who has a
// piece.
func newBodyOfTravel(kind string) Body {
	switch kind {
	case "tried":
		return &Tried{}
	case "skated":
		return &Skated{}
	case "pitch":
		return &Pitched{}
	case "rules":
		return &RulesNoted{}
	case "custody":
		return &CustodyChanged{}
	case "answer":
		return &MakerAnswered{}
	case "scrap":
		return &Scrapped{}
	case "emergency":
		return &Emergency{}
	case "emergency-done":
		return &EmergencyDone{}
	case "emergency-closed":
		return &EmergencyClosed{}
	}
	return newBodyOfTrips(kind)
}

// newBodyOfTrips knows the kinds that have to do with trips and those who come along.
func newBodyOfTrips(kind string) Body {
	switch kind {
	case "trip":
		return &TripNoted{}
	case "roster":
		return &Travelling{}
	case "packed":
		return &Packed{}
	case "loaded":
		return &Loaded{}
	case "kit":
		return &KitNoted{}
	case "callup":
		return &CalledUp{}
	}
	return nil
}
