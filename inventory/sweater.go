package inventory

// wears notes a sweater that a tag says was worn, unless that is known already.
func wears(line *Timeline[int], e *Event, sweater int) {
	if worn, known := line.At(e.Happened.Start); !known || worn != sweater {
		line.add(e, sweater)
	}
}
