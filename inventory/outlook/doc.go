// Package outlook says what comes next of the steel in use: which set is due when,
// what to measure, whose steel won't last, what to buy. It turns the record's states
// into the plain numbers of package wear and its answers back into the club's words
// and days. It is pure.
//
// A player is a player in one role: goalkeepers are never pooled with skaters. What a
// player is asked about is the set on his first pair; sets on his other pairs are told
// beside it.
package outlook
