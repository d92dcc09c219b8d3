package inventory

// MapKeys puts other keys into the place of those that a body names one by one, as change
// says.
func MapKeys(body Body, change func(Key) Key) {
	list := func(keys []Key) {
		for i, key := range keys {
			keys[i] = change(key)
		}
	}
	switch b := body.(type) {
	case *Correction:
		list(b.Voids)
		list(b.Keeps)
	case *EmergencyDone:
		b.Emergency = change(b.Emergency)
	case *EmergencyClosed:
		b.Emergency = change(b.Emergency)
	case *ClockRight:
		list(b.Doubts)
	case *ClockSet:
		list(b.Doubts)
	}
}

// NamesAny tells whether a body is about one of some entries: it names their keys, or sets
// right the clock by which they were noted.
func NamesAny(body Body, some map[Key]bool) (names bool) {
	if len(some) == 0 {
		return false
	}
	MapKeys(body, func(key Key) Key {
		names = names || some[key]
		return key
	})
	return names || setsAny(body, some)
}

// setsAny tells whether a body moves the time of one of some entries.
func setsAny(body Body, some map[Key]bool) bool {
	set, ok := body.(*ClockSet)
	if !ok {
		return false
	}
	is := clockSet{of: set.Of, stretches: set.stretches()}
	for key, in := range some {
		if in && key.Writer == is.of && is.has(key.Sequence) {
			return true
		}
	}
	return false
}
