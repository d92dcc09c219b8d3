// Package review looks back on steel: on a bin of removed runners, a player, a season,
// or the whole club. It adds up what each piece went through, compares left with right,
// lots and models with each other, and says what stands out; where the figures are too
// few it says so.
//
// What the record does not know is taken from the tags alone.
package review
