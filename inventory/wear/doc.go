// Package wear says how fast steel loses height and when a runner is due for
// change, from plain numbers: heights after so many passes, the player's and
// the club's earlier runners, and the schedule.
//
// One forecast goes through four steps. CaliperVariance and NewHeight learn
// what a reading and a new runner are worth. EarlierRunner turns each removed
// runner into a loss per pass with its error; a Pool of them gives a player's
// Prior. Forecast filters the present runner's heights (and its partner's)
// over a grid of losses. PassesLeft counts passes; FirstDay counts days. Learn
// takes the first three steps over a whole Record, and LookBack says how such
// forecasts have held so far.
//
// Heights are in mm at the middle of the runner, one reference (loose or
// fitted) in one series. Losses are mm a pass, and their logarithms natural.
// A player is a player in one role: goalkeepers are pooled by themselves.
package wear
