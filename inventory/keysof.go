package inventory

// MapKeys puts other keys into the place of those that a body names, as map says.
func MapKeys(body Body, change func(Key) Key) {
	switch b := body.(type) {
	case *Correction:
		for i, key := range b.Voids {
			b.Voids[i] = change(key)
		}
		for i, key := range b.Keeps {
			b.Keeps[i] = change(key)
		}
	case *EmergencyDone:
		b.Emergency = change(b.Emergency)
	case *EmergencyClosed:
		b.Emergency = change(b.Emergency)
	}
}
