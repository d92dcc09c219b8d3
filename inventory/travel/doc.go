// Package travel tells which spare pair travels and what is wrong with one that does
// not, what gets a player back on the ice, what belongs into the trunks of a trip, and
// what waits for a person. It is pure: it looks at the record's states, never at a clock.
package travel
