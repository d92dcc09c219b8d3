// Package truth draws the steel of an invented club: how fast each player,
// pair and runner loses height, how a grind takes it off, and what a caliper
// shows of it. The forecast is tested over it and the demonstration book is
// made from it, so that both live in one world.
//
// Every function takes its random source: the same seed gives the same club.
package truth
