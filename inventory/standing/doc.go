// Package standing tells how a piece, a set, a pair and a player stand at an instant: what
// is on, whether it may be skated on, how high it is, where it is and who has it. Each of
// these is worked out here and nowhere else; every list, paper, tag and screen takes it
// from here. It is pure: it looks at the record's states, never at a clock.
package standing
