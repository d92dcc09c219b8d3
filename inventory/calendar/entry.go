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

// Skipped is an entry that was not taken.
type Skipped struct {
	UID     string
	Summary string
	Reason  string
	Known   bool // another entry of the file stands for it
}

// mostInstances bounds what a file can stand for.
const mostInstances = 5000
