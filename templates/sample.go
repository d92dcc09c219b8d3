package templates

// Sample is the content of an invented tag with every field filled, for previews,
// for trying templates, and for the checks.
func Sample() Content {
	return Content{
		Number: "1000042744", Short: "R0-427-44", Kind: "runner",
		Side: "left", Sweater: "17", Role: "first", Letter: "B",
		Player: "Ansgar Lindqvarn", Name: "Trunk 4",
		DateOff: "28 NOV 2025", SetOrder: "set 12",
		HeightNew: "11.90 mm", HeightFinal: "9.40 mm",
		Hollow: "1/2 in", Profile: "11 ft", Size: "280", Model: "Model R",
		Reason: "low", LastGame: "Rime Point 27 NOV",
		Tally: "T1.1000042744.2.117.17L.260112.260128.1190.940.41.205.32.LOW.37",
		Lines: []string{"8 pairs, spare", "24 runners", "rivets, hammer, wax"},
		Word:  "GRIND", Hint: "the usual passes, both sides",
	}
}
