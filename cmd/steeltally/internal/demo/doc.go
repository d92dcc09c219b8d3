// Package demo plays seasons of the invented club Skarn Harbour Terns and keeps its
// book, so that every screen, tag and forecast has something to show.
//
// The simulator knows what truly happens (see truth.go and the package truth): who
// skates when, what a grind takes off, what breaks. What its staff write down of it
// goes through the same decisions as a real person's entries, with their slips: late,
// twice, for the wrong player, on the wrong set, or not at all. Everything is drawn
// from one seed; the same seed and end day give the same book.
package demo
