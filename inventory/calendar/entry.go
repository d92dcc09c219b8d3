package calendar

import "time"

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

// Skipped is an entry that could not be read.
type Skipped struct {
	UID     string
	Summary string
	Reason  string
}

// mostInstances bounds what a file can stand for.
const mostInstances = 5000
