// Package calendar reads iCalendar files (RFC 5545) as plain entries: when something
// starts, what it is called, and whether it moved or was cancelled. It knows nothing of
// the record, and nothing of clocks: what recurs for ever ends where it is told to.
package calendar

import (
	"slices"
	"strings"
	"time"
)

// Entry is one thing in a calendar, or one instance of what recurs.
type Entry struct {
	UID        string
	Instance   time.Time // which one of what recurs: its start by the rule; zero: it does not recur
	Sequence   int       // how often it was changed
	Start      time.Time
	AllDay     bool
	Summary    string
	Location   string
	Categories []string
	Cancelled  bool
}

// Skipped is an entry that was not taken.
type Skipped struct {
	UID     string
	Summary string
	Reason  string
	Known   bool // another entry of the file stands for it
}

// mostInstances bounds what a file can stand for.
const mostInstances = 5000

// Meaning is what an entry is to a club.
type Meaning struct {
	Game     bool
	Practice bool
	Opponent string
	Away     bool
}

// Club is by what a club knows its own games.
type Club struct {
	Name string // "Skarn Harbour Terns"; an entry may have a part of it
	Home string // what the place of home games is called; empty: go by the names
}

// practiceWords are what practices are called; common practice, no source.
var practiceWords = [...]string{"practice", "practise", "training", "skate"}

// between are the words between two opponents, and whether the first one is at home.
var between = [...]struct {
	words     string
	firstHome bool
}{{" @ ", false}, {" at ", false}, {" vs. ", true}, {" vs ", true}, {" v. ", true}, {" v ", true}, {" against ", true}, {" – ", true}, {" - ", true}}

// Meaning tells a game from a practice by what the entry is called: "Terns vs Rime
// Point", "Rime Point - Terns", "@ Rime Point", "Practice". What is neither is nothing.
func (c Club) Meaning(e Entry) Meaning {
	m := c.game(" " + strings.TrimSpace(e.Summary))
	if !m.Game || isPractice(m.Opponent) {
		return Meaning{Practice: slices.ContainsFunc(append([]string{e.Summary}, e.Categories...), isPractice)}
	}
	if c.Home != "" && e.Location != "" {
		m.Away = !strings.Contains(strings.ToLower(e.Location), strings.ToLower(c.Home))
	}
	return m
}

func isPractice(text string) bool {
	return slices.ContainsFunc(practiceWords[:], func(word string) bool { return strings.Contains(strings.ToLower(text), word) })
}

// game reads who plays whom, and where.
func (c Club) game(summary string) Meaning {
	for _, b := range between {
		at := strings.Index(strings.ToLower(summary), b.words)
		if at < 0 {
			continue
		}
		first, second := strings.TrimSpace(summary[:at]), strings.TrimSpace(summary[at+len(b.words):])
		switch {
		case second == "":
		case first == "" || c.is(first) && !c.is(second):
			return Meaning{Game: true, Opponent: second, Away: !b.firstHome}
		case c.is(second) && !c.is(first):
			return Meaning{Game: true, Opponent: first, Away: b.firstHome}
		}
	}
	return Meaning{}
}

// shortestPart is how much of the club's name is enough to know it by.
const shortestPart = 4

// is tells whether a name is the club's, or a part of it.
func (c Club) is(name string) bool {
	name, own := strings.ToLower(name), strings.ToLower(c.Name)
	return own != "" && (strings.Contains(name, own) || len(name) >= shortestPart && strings.Contains(own, name))
}
